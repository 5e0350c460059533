import { useEffect, useState, type ReactNode } from 'react';
import { Route, Switch, useLocation } from 'wouter';
import { wordShelf, worded } from './device/catalogues.ts';
import { useLog } from './log/log-provider.tsx';
import { later } from './later/later.ts';
import { LatePart } from './later/late-part.tsx';
import { useUpdate } from './sw/use-update.ts';
import { WipeGuard } from './vat/wipe-guard.tsx';

const VatScreen = later(async () => (await import('./vat/vat-screen.tsx')).VatScreen);
const PotsScreen = later(async () => (await worded(() => import('./pots/pots-screen.tsx'))).PotsScreen);
const WallScreen = later(async () => (await worded(() => import('./pots/wall-screen.tsx'))).WallScreen);
const PairScreen = later(async () => (await worded(() => import('./pairing/pair-screen.tsx'))).PairScreen);
const Places = later(async () => (await import('./places.tsx')).Places);

/** The places. The vat and the pots have no frame: nothing stands beside the one thing to do. */
export function App(): ReactNode {
  const update = useUpdate();
  const [location] = useLocation();
  const { access } = useLog().held;
  const [isAlone, setAlone] = useState(false);
  // Styles leave out what this device may not do.
  useEffect(() => void (document.documentElement.dataset['may'] = access), [access]);
  // The vat does not wait for the other screens' words, but has them before anybody leaves it.
  useEffect(() => void wordShelf.fill().catch(() => undefined), []);
  return (
    <LatePart of={location}>
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
        <Route path="/pair">
          <PairScreen />
        </Route>
        <Route>
          {access === 'none' && !isAlone ? <PairScreen onAlone={() => setAlone(true)} /> : <Places update={update} />}
        </Route>
      </Switch>
    </LatePart>
  );
}
