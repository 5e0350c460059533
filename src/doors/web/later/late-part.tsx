import { Component, Suspense, type ReactNode } from 'react';
import { askAgain, PartLost } from './later.ts';
import { LostPart } from './lost-part.tsx';

interface Props {
  /** What is shown; when it changes, what was lost before is no longer spoken of. */
  readonly of?: string;
  /** The way out, where there is one besides asking again. */
  readonly onBack?: () => void;
  readonly children: ReactNode;
}

interface State {
  readonly lost: Error | null;
  readonly asked: number;
}

/** Where a part of the page comes later: nothing until it is here, and plain words where it does not arrive. */
export class LatePart extends Component<Props, State> {
  override state: State = { lost: null, asked: 0 };

  static getDerivedStateFromError(error: unknown): Pick<State, 'lost'> {
    return { lost: error instanceof Error ? error : new Error(String(error)) };
  }

  override componentDidUpdate(before: Props): void {
    if (before.of !== this.props.of && this.state.lost !== null) this.begin(0);
  }

  override componentWillUnmount(): void {
    // Whoever comes back to it asks anew.
    if (this.state.lost !== null) askAgain();
  }

  private begin(asked: number): void {
    askAgain();
    this.setState({ lost: null, asked });
  }

  private async again(): Promise<void> {
    const { lost, asked } = this.state;
    const mayComeAlone = lost instanceof PartLost && !lost.needsPage && asked === 0;
    // A build that was replaced never gives its old parts again, but the page itself does.
    if (!mayComeAlone && (await isThere())) location.reload();
    else this.begin(asked + 1);
  }

  override render(): ReactNode {
    const { lost, asked } = this.state;
    const { onBack, children } = this.props;
    if (lost === null) return <Suspense fallback={null}>{children}</Suspense>;
    const again = (): void => void this.again();
    return <LostPart isLost={lost instanceof PartLost} because={lost.message} asked={asked} onAgain={again} onBack={onBack} />; // prettier-ignore
  }
}

/** Whether the page would come if it were loaded anew, from its server or from what this device keeps. */
async function isThere(): Promise<boolean> {
  try {
    return (await fetch('/', { cache: 'no-store' })).ok;
  } catch {
    return false;
  }
}
