import { lazy, Suspense, type ReactNode } from 'react';
import { Route, Switch } from 'wouter';
import { Frame } from './frame.tsx';
import { useReader } from './device/reader.tsx';
import { useUpdate } from './sw/use-update.ts';
import { TodayScreen } from './today/today-screen.tsx';

const PlanScreen = lazy(async () => ({ default: (await import('./plan/plan-screen.tsx')).PlanScreen }));
const VatScreen = lazy(async () => ({ default: (await import('./vat/vat-screen.tsx')).VatScreen }));
const PotsScreen = lazy(async () => ({ default: (await import('./pots/pots-screen.tsx')).PotsScreen }));
const WallScreen = lazy(async () => ({ default: (await import('./pots/wall-screen.tsx')).WallScreen }));
const BenchScreen = lazy(async () => ({ default: (await import('./bench/bench-screen.tsx')).BenchScreen }));
const SumScreen = lazy(async () => ({ default: (await import('./bench/sum-screen.tsx')).SumScreen }));
const LotsScreen = lazy(async () => ({ default: (await import('./lots/lots-screen.tsx')).LotsScreen }));
const RecordScreen = lazy(async () => ({ default: (await import('./record/record-screen.tsx')).RecordScreen }));

/** The places. The vat and the pots have no frame: nothing stands beside the one thing to do. */
export function App(): ReactNode {
  const update = useUpdate();
  return (
    <Suspense fallback={null}>
      <Switch>
        <Route path="/vat/:batchId">{({ batchId }) => <VatScreen batchId={batchId} />}</Route>
        <Route path="/pots" component={PotsScreen} />
        <Route path="/pots/wall" component={WallScreen} />
        <Route>
          <Frame update={update}>
            <Suspense fallback={null}>
              <Switch>
                <Route path="/" component={TodayScreen} />
                <Route path="/plan" component={PlanScreen} />
                <Route path="/bench" component={BenchScreen} />
                <Route path="/bench/lots" component={LotsScreen} />
                <Route path="/bench/:name">{({ name }) => <SumScreen name={name} />}</Route>
                <Route path="/record/:batchId">{({ batchId }) => <RecordScreen batchId={batchId} />}</Route>
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
