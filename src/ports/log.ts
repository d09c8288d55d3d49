/** Notes faults for whoever looks for the cause; never throws and never waits. */
export type Log = {
  /** `what` is a short fixed phrase, `detail` whatever was caught. */
  readonly note: (what: string, detail?: unknown) => void;
};
