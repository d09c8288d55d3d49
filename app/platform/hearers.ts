/** Those who asked to be told. */
export type Hearers<T> = {
  readonly tell: (news: T) => void;
  readonly listen: (hear: (news: T) => void) => () => void;
};

export function hearers<T>(): Hearers<T> {
  const all = new Set<{ readonly hear: (news: T) => void }>();
  return {
    // Over a copy: who hears may listen or stop listening.
    tell: (news) => {
      for (const one of [...all]) one.hear(news);
    },
    listen: (hear) => {
      const one = { hear };
      all.add(one);
      return () => {
        all.delete(one);
      };
    },
  };
}

/** A fact about the phone that others follow. */
export type ToldFact<F> = {
  readonly fact: () => F;
  /** Tells only when it is another. */
  readonly become: (fact: F) => void;
  readonly listen: (hear: (fact: F) => void) => () => void;
};

export function toldFact<F extends string>(first: F): ToldFact<F> {
  const { tell, listen } = hearers<F>();
  let now = first;
  return {
    fact: () => now,
    become: (fact) => {
      if (fact === now) return;
      now = fact;
      tell(fact);
    },
    listen,
  };
}
