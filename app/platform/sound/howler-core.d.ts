// The core build has no types of its own; those of the package describe it.
declare module 'howler/dist/howler.core.min.js' {
  export const Howler: import('howler').HowlerGlobal;
}
