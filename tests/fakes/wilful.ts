import type { Kept, StoreReason } from '../../src/ports/class-store.ts';

/**
 * What becomes of a deed. `refuse`: not done, and said so. `hang`: not done, no answer ever. `holdAnswer`: done now,
 * answered at `release`. `loseAnswer`: done now, said to be `unavailable`. `landLate`: said to be `unavailable`, done
 * at `release`. `landTwice`: done and said so, and done once more at `release`.
 */
export type Behaviour =
  | 'obey'
  | 'hang'
  | 'holdAnswer'
  | 'loseAnswer'
  | 'landLate'
  | 'landTwice'
  | { readonly refuse: StoreReason };

/** How the test tells a double what to do. */
export type Told = {
  /** From now on, or for the next `times` deeds; then it obeys. */
  readonly behave: (how: Behaviour, times?: number) => void;
  /** Lets land what is late and answers what is held, in order. */
  readonly release: () => void;
  /** The window is gone: nothing more is done or answered. */
  readonly die: () => void;
  /** How many deeds were asked for. */
  readonly asked: () => number;
  /** How many are still without an answer. */
  readonly unanswered: () => number;
};

export type Wilful = Told & { readonly act: <T>(deed: () => Kept<T>) => Promise<Kept<T>> };

/** Runs the deeds of a double as the test wills. */
export function wilful(): Wilful {
  let will: Behaviour = 'obey';
  let timesLeft = Number.POSITIVE_INFINITY;
  let isDead = false;
  let asked = 0;
  let unanswered = 0;
  let late: (() => void)[] = [];

  const nextWill = (): Behaviour => {
    if (timesLeft <= 0) will = 'obey';
    timesLeft -= 1;
    return isDead ? 'hang' : will;
  };

  /** Does now what is to be done now, and gives what is to be said. */
  const doAs = <T>(how: Exclude<Behaviour, 'hang'>, deed: () => Kept<T>): Kept<T> => {
    if (typeof how === 'object') return no(how.refuse);
    if (how === 'landLate' || how === 'landTwice') late.push(deed);
    if (how === 'landLate') return no('unavailable');
    const done = deed();
    return how === 'loseAnswer' ? no('unavailable') : done;
  };

  return {
    act: (deed) =>
      new Promise((resolve) => {
        const how = nextWill();
        asked += 1;
        unanswered += 1;
        if (how === 'hang') return;
        const said = doAs(how, deed);
        const answer = (): void => {
          unanswered -= 1;
          resolve(said);
        };
        if (how === 'holdAnswer') late.push(answer);
        else answer();
      }),
    behave: (how, times = Number.POSITIVE_INFINITY) => {
      will = how;
      timesLeft = times;
    },
    release: () => {
      const due = late;
      late = [];
      for (const one of due) one();
    },
    die: () => {
      isDead = true;
      late = [];
    },
    asked: () => asked,
    unanswered: () => unanswered,
  };
}

function no(reason: StoreReason): { readonly ok: false; readonly reason: StoreReason } {
  return { ok: false, reason };
}
