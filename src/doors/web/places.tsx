import type { ReactNode } from 'react';
import { Route, Switch, useLocation } from 'wouter';
import { Frame } from './frame.tsx';
import { worded } from './device/catalogues.ts';
import { useReader } from './device/reader.tsx';
import { later } from './later/later.ts';
import { LatePart } from './later/late-part.tsx';
import type { Update } from './sw/register.ts';

const TodayScreen = later(async () => (await import('./today/today-screen.tsx')).TodayScreen);
const PlanScreen = later(async () => (await worded(() => import('./plan/plan-screen.tsx'))).PlanScreen);
const MakesScreen = later(async () => (await worded(() => import('./makes/makes-screen.tsx'))).MakesScreen);
const MakePage = later(async () => (await worded(() => import('./makes/make-page.tsx'))).MakePage);
const ChangeScreen = later(async () => (await worded(() => import('./makes/change/change-screen.tsx'))).ChangeScreen);
const BuyingScreen = later(async () => (await worded(() => import('./buying/buying-screen.tsx'))).BuyingScreen);
const DayScreen = later(async () => (await worded(() => import('./day/day-screen.tsx'))).DayScreen);
const BenchScreen = later(async () => (await worded(() => import('./bench/bench-screen.tsx'))).BenchScreen);
const SumScreen = later(async () => (await worded(() => import('./bench/sum-screen.tsx'))).SumScreen);
const LotsScreen = later(async () => (await worded(() => import('./lots/lots-screen.tsx'))).LotsScreen);
const AgeingScreen = later(async () => (await worded(() => import('./ageing/ageing-screen.tsx'))).AgeingScreen);
const PieceScreen = later(async () => (await worded(() => import('./ageing/piece-screen.tsx'))).PieceScreen);
const NewPieceScreen = later(async () => (await worded(() => import('./ageing/new-piece-screen.tsx'))).NewPieceScreen);
const BrineScreen = later(async () => (await worded(() => import('./brine/brine-screen.tsx'))).BrineScreen);
const RecordScreen = later(async () => (await worded(() => import('./record/record-screen.tsx'))).RecordScreen);
const LabelsScreen = later(async () => (await worded(() => import('./labels/labels-screen.tsx'))).LabelsScreen);
const ClassLabelsScreen = later(
  async () => (await worded(() => import('./labels/class-labels-screen.tsx'))).ClassLabelsScreen,
);
const CompareScreen = later(async () => (await worded(() => import('./record/compare-screen.tsx'))).CompareScreen);
const GaugeScreen = later(async () => (await worded(() => import('./print/gauge-screen.tsx'))).GaugeScreen);
const PaperScreen = later(async () => (await worded(() => import('./paper/paper-screen.tsx'))).PaperScreen);
const ShareScreen = later(async () => (await worded(() => import('./share/share-screen.tsx'))).ShareScreen);
const TakeScreen = later(async () => (await worded(() => import('./share/take-screen.tsx'))).TakeScreen);
const SharingScreen = later(async () => (await worded(() => import('./pairing/sharing-screen.tsx'))).SharingScreen);
const WriteUpScreen = later(async () => (await worded(() => import('./write-up/write-up-screen.tsx'))).WriteUpScreen);
const InstrumentsScreen = later(
  async () => (await worded(() => import('./instruments/instruments-screen.tsx'))).InstrumentsScreen,
);

// The first screen is fetched beside its frame, not after it.
if (location.pathname === '/') TodayScreen.ahead();

/** The places in the desk's frame: all but the vat and the pots, which fetch none of this. */
export function Places({ update }: { readonly update: Update | null }): ReactNode {
  const [location] = useLocation();
  return (
    <Frame update={update}>
      <LatePart of={location}>
        <Switch>
          <Route path="/">
            <TodayScreen />
          </Route>
          <Route path="/plan">
            <PlanScreen />
          </Route>
          <Route path="/makes">
            <MakesScreen />
          </Route>
          <Route path="/makes/:id/change">{({ id }) => <ChangeScreen makeId={id} />}</Route>
          <Route path="/makes/:id">{({ id }) => <MakePage makeId={id} />}</Route>
          <Route path="/plan/buying">
            <BuyingScreen />
          </Route>
          <Route path="/day">
            <DayScreen />
          </Route>
          <Route path="/bench">
            <BenchScreen />
          </Route>
          <Route path="/bench/lots">
            <LotsScreen />
          </Route>
          <Route path="/bench/:name">{({ name }) => <SumScreen name={name} />}</Route>
          <Route path="/record/:batchId/instruments">{({ batchId }) => <InstrumentsScreen batchId={batchId} />}</Route>
          <Route path="/record/:batchId">{({ batchId }) => <RecordScreen batchId={batchId} />}</Route>
          <Route path="/record/:batchId/labels">{({ batchId }) => <LabelsScreen batchId={batchId} />}</Route>
          <Route path="/record/:batchId/labels/class">{({ batchId }) => <ClassLabelsScreen batchId={batchId} />}</Route>
          <Route path="/record/:batchId/compare">{({ batchId }) => <CompareScreen batchId={batchId} />}</Route>
          <Route path="/ageing">
            <AgeingScreen />
          </Route>
          <Route path="/ageing/new">
            <NewPieceScreen />
          </Route>
          <Route path="/ageing/:pieceId">{({ pieceId }) => <PieceScreen key={pieceId} pieceId={pieceId} />}</Route>
          <Route path="/brine">
            <BrineScreen />
          </Route>
          <Route path="/record/:batchId/write-up">{({ batchId }) => <WriteUpScreen batchId={batchId} />}</Route>
          <Route path="/paper">
            <PaperScreen />
          </Route>
          <Route path="/paper/:of">{({ of }) => <PaperScreen of={of} />}</Route>
          <Route path="/paper/:of/:sheet">{({ of, sheet }) => <PaperScreen of={of} sheet={sheet} />}</Route>
          <Route path="/share">
            <TakeScreen />
          </Route>
          <Route path="/share/:makeId">{({ makeId }) => <ShareScreen makeId={makeId} />}</Route>
          <Route path="/sharing">
            <SharingScreen />
          </Route>
          <Route path="/gauge">
            <GaugeScreen />
          </Route>
          <Route component={NoSuchPlace} />
        </Switch>
      </LatePart>
    </Frame>
  );
}

function NoSuchPlace(): ReactNode {
  const { say } = useReader();
  return (
    <>
      <h1>{say('app:noPlace.title')}</h1>
      <p>{say('app:noPlace.remedy')}</p>
    </>
  );
}
