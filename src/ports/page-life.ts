/** What happens to the page as a whole. */
export type PageEvent = 'hidden' | 'visible' | 'frozen' | 'woke' | 'leaving';

/** Tells when the page is hidden, frozen or comes back, in whatever order the browser says so. */
export type PageLife = {
  /** True while the page can be seen. */
  readonly isVisible: () => boolean;
  /** Calls `hear` on every event until the returned function is called. */
  readonly listen: (hear: (event: PageEvent) => void) => () => void;
};
