import { Component, type ReactNode } from 'react';
import { words } from './words.ts';

type Props = { readonly part: string; readonly children: ReactNode };
type State = { readonly failed: boolean };

/** Keeps a fault in one part of a page inside that part: the rest goes on, and the part can be tried again. */
export class Boundary extends Component<Props, State> {
  override state: State = { failed: false };

  static getDerivedStateFromError(): State {
    return { failed: true };
  }

  override render(): ReactNode {
    if (!this.state.failed) return this.props.children;
    return (
      <div className="failed-part" role="alert">
        <p>{words.partFailed(this.props.part)}</p>
        <button type="button" className="plain-button" onClick={() => this.setState({ failed: false })}>
          {words.tryAgain}
        </button>
      </div>
    );
  }
}
