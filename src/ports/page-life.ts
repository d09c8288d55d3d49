/** What happens to the page as a whole. `woke`: it may not have been seen for a while; `focused`: it was there all along. */
export type PageEvent = 'hidden' | 'visible' | 'frozen' | 'woke' | 'focused' | 'leaving';

/** Tells when the page is hidden, frozen or comes back, in whatever order the browser says so. */
export type PageLife = {
  /** True while the page can be seen. */
  readonly isVisible: () => boolean;
  /** Calls `hear` on every event until the returned function is called. */
  readonly listen: (hear: (event: PageEvent) => void) => () => void;
};
