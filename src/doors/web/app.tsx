import { lazy, Suspense, useEffect, type ReactNode } from 'react';
import { Route, Switch } from 'wouter';
import { Frame } from './frame.tsx';
import { wordShelf, worded } from './device/catalogues.ts';
import { useReader } from './device/reader.tsx';
import { useUpdate } from './sw/use-update.ts';
import { WipeGuard } from './vat/wipe-guard.tsx';

const VatScreen = lazy(async () => ({ default: (await import('./vat/vat-screen.tsx')).VatScreen }));
const TodayScreen = lazy(async () => ({ default: (await import('./today/today-screen.tsx')).TodayScreen }));
const PlanScreen = lazy(async () => ({ default: (await worded(() => import('./plan/plan-screen.tsx'))).PlanScreen }));
const BenchScreen = lazy(async () => ({
  default: (await worded(() => import('./bench/bench-screen.tsx'))).BenchScreen,
}));
const SumScreen = lazy(async () => ({ default: (await worded(() => import('./bench/sum-screen.tsx'))).SumScreen }));
const LotsScreen = lazy(async () => ({ default: (await worded(() => import('./lots/lots-screen.tsx'))).LotsScreen }));
const RecordScreen = lazy(async () => ({
  default: (await worded(() => import('./record/record-screen.tsx'))).RecordScreen,
}));
const InstrumentsScreen = lazy(async () => ({
  default: (await worded(() => import('./instruments/instruments-screen.tsx'))).InstrumentsScreen,
}));
const LabelsScreen = lazy(async () => ({
  default: (await worded(() => import('./labels/labels-screen.tsx'))).LabelsScreen,
}));
const CompareScreen = lazy(async () => ({
  default: (await worded(() => import('./record/compare-screen.tsx'))).CompareScreen,
}));
const GaugeScreen = lazy(async () => ({
  default: (await worded(() => import('./print/gauge-screen.tsx'))).GaugeScreen,
}));
const PotsScreen = lazy(async () => ({ default: (await worded(() => import('./pots/pots-screen.tsx'))).PotsScreen }));
const WallScreen = lazy(async () => ({ default: (await worded(() => import('./pots/wall-screen.tsx'))).WallScreen }));

/** The places. The vat and the pots have no frame: nothing stands beside the one thing to do. */
export function App(): ReactNode {
  const update = useUpdate();
  // The vat does not wait for the other screens' words, but has them before anybody leaves it.
  useEffect(() => void wordShelf.fill().catch(() => undefined), []);
  return (
    <Suspense fallback={null}>
      <Switch>
        <Route path="/vat/:batchId">{({ batchId }) => <VatScreen batchId={batchId} />}</Route>
        <Route path="/pots">
          <WipeGuard>
            <PotsScreen />
          </WipeGuard>
        </Route>
        <Route path="/pots/wall">
          <WipeGuard>
            <WallScreen />
          </WipeGuard>
        </Route>
        <Route>
          <Frame update={update}>
            <Suspense fallback={null}>
              <Switch>
                <Route path="/" component={TodayScreen} />
                <Route path="/plan" component={PlanScreen} />
                <Route path="/bench" component={BenchScreen} />
                <Route path="/bench/lots" component={LotsScreen} />
                <Route path="/bench/:name">{({ name }) => <SumScreen name={name} />}</Route>
                <Route path="/record/:batchId/instruments">
                  {({ batchId }) => <InstrumentsScreen batchId={batchId} />}
                </Route>
                <Route path="/record/:batchId">{({ batchId }) => <RecordScreen batchId={batchId} />}</Route>
                <Route path="/record/:batchId/labels">{({ batchId }) => <LabelsScreen batchId={batchId} />}</Route>
                <Route path="/record/:batchId/compare">{({ batchId }) => <CompareScreen batchId={batchId} />}</Route>
                <Route path="/gauge" component={GaugeScreen} />
                <Route component={NoSuchPlace} />
              </Switch>
            </Suspense>
          </Frame>
        </Route>
      </Switch>
    </Suspense>
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
