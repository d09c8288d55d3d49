// Who may see whom. Arrows point one way: moves <- plan <- running-order <- class-run <- review <-
// course. Read by `npm run check`; layers.test.ts proves that each rule fires.

const domain = ['moves', 'plan', 'running-order', 'class-run', 'review', 'course'];
const outerParts = ['records', 'exchange', 'figures', 'facts'];
const page = '^app/(?!build/)';
const severity = /** @type {const} */ ('error');

/** A layer of the domain sees itself and the layers before it; from review on, the outer parts too. */
const domainRules = domain.map((layer, at) => {
  const seen = [...domain.slice(0, at + 1), ...(at >= domain.indexOf('review') ? outerParts : [])];
  return {
    name: `domain-order-${layer}`,
    comment: `src/${layer} sees only: ${seen.join(', ')}.`,
    severity,
    from: { path: `^src/${layer}/` },
    to: { path: '^src/', pathNot: `^src/(${seen.join('|')})/` },
  };
});

/** One file knows the library; everything else knows that file. */
const wrapperRules = ['idb', 'howler', 'workbox-window'].map((library) => ({
  name: `one-wrapper-${library}`,
  comment: `Only one file imports ${library}.`,
  severity,
  from: { path: page },
  module: { path: `^node_modules/${library}/`, numberOfDependentsMoreThan: 1 },
}));

/**
 * @param {string} name
 * @param {string} comment
 * @param {object} from
 * @param {object} to
 */
const forbid = (name, comment, from, to) => ({ name, comment, severity, from, to });

module.exports = {
  forbidden: [
    forbid('no-cycles', 'No module leads back to itself.', {}, { circular: true }),
    forbid('found', 'Every import leads to a file.', {}, { couldNotResolve: true }),
    forbid(
      'src-stands-alone',
      'src sees only src; valibot where things come from outside or leave.',
      { path: '^src/' },
      { pathNot: ['^src/', '^node_modules/valibot/'] },
    ),
    forbid(
      'valibot-outside-the-domain',
      'valibot reads what comes from outside: in records, exchange, figures and facts only.',
      { path: ['^src/', page], pathNot: `^src/(${outerParts.join('|')})/` },
      { path: '^node_modules/valibot/' },
    ),
    ...domainRules,
    forbid(
      'domain-knows-no-ports',
      'What a class is does not depend on how a phone does it.',
      { path: '^src/', pathNot: '^src/ports/' },
      { path: '^src/ports/' },
    ),
    forbid(
      'live-sees-src-only',
      'app/live has no DOM: it sees src, itself and signals.',
      { path: '^app/live/' },
      { pathNot: ['^src/', '^app/live/', '^node_modules/@preact/signals(-core)?/'] },
    ),
    forbid(
      'screens-see',
      'Screens see src, live, parts and words; how the phone does it comes in through main.',
      { path: '^app/screens/' },
      { path: '^app/', pathNot: '^app/(screens|live|parts|words|styles)/' },
    ),
    forbid(
      'parts-see',
      'A part is used by screens and knows none of them, nor the running class.',
      { path: '^app/parts/' },
      { path: '^app/', pathNot: '^app/(parts|words|styles)/' },
    ),
    forbid(
      'words-see',
      'Words are for people: they see the domain types they name.',
      { path: '^app/words/' },
      { pathNot: ['^src/', '^app/words/'] },
    ),
    forbid(
      'ports-as-types',
      'Screens and parts know ports by type; main hands them the real ones.',
      { path: '^app/(screens|parts|words)/' },
      { path: '^src/ports/', dependencyTypesNot: ['type-only'] },
    ),
    forbid(
      'platform-stands-under',
      'An adapter knows its port and the phone, not who uses it.',
      { path: '^app/platform/' },
      { path: '^app/', pathNot: '^app/platform/' },
    ),
    forbid(
      'only-main-joins',
      'Only app/main.tsx, and what it loads for a class, brings adapters, the live class and the screens together.',
      { path: page, pathNot: '^app/(platform/|main\\.tsx$|class-rooms\\.ts$)' },
      { path: '^app/platform/' },
    ),
    forbid('main-is-the-top', 'Nothing imports app/main.tsx.', {}, { path: '^app/main\\.tsx$' }),
    forbid(
      'libraries-behind-ports',
      'idb, howler and workbox-window are known in app/platform only.',
      { path: ['^src/', page, '^service-worker/'], pathNot: '^app/platform/' },
      { path: '^node_modules/(idb|howler|@types/howler|workbox-window)/' },
    ),
    ...wrapperRules,
    forbid(
      'worker-stands-apart',
      'The worker sees itself and workbox: never the app, the domain or the database.',
      { path: '^service-worker/' },
      { pathNot: ['^service-worker/', '^node_modules/workbox-(core|precaching|range-requests|routing|strategies)/'] },
    ),
    forbid(
      'nobody-sees-the-worker',
      'The page reaches the worker by its address only.',
      { pathNot: '^service-worker/' },
      { path: '^service-worker/' },
    ),
    forbid(
      'workbox-in-the-worker',
      'The workbox of the worker stays out of the page.',
      { path: ['^src/', page] },
      { path: '^node_modules/workbox-(?!window/)' },
    ),
    forbid(
      'build-stands-apart',
      'The scripts that build are no part of what is built.',
      { path: ['^src/', page, '^service-worker/'] },
      { path: '^app/build/' },
    ),
    forbid(
      'nothing-imports-tests',
      'Nothing that ships knows its tests.',
      { path: ['^src/', page, '^service-worker/'] },
      { path: '^tests/' },
    ),
    forbid(
      'ships-no-tool',
      'What ships imports run-time packages only, and no module of Node.',
      { path: ['^src/', page, '^service-worker/'] },
      { dependencyTypes: ['npm-dev', 'npm-no-pkg', 'npm-unknown', 'core'], dependencyTypesNot: ['type-only'] },
    ),
  ],
  options: {
    doNotFollow: { path: '^node_modules/' },
    exclude: { path: '^(dist|coverage)/' },
    tsPreCompilationDeps: true,
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'types', 'browser', 'node', 'default'],
      extensions: ['.ts', '.tsx', '.mjs', '.js', '.cjs', '.json'],
    },
  },
};
