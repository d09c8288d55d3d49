import type { MoveLibrary } from '../../../src/moves/move.ts';
import type { Plan } from '../../../src/plan/plan.ts';
import type { HallCard } from '../../../src/records/stored-shapes.ts';
import type { LiveClass } from '../../live/live-contract.ts';
import { KitDrawing } from '../../parts/kit-drawing.tsx';
import { missingBeforeStart } from '../../words/fact-words.ts';
import { ASK_NAMES, metresText, READING_TEXTS, SILENT_SWITCH } from '../../words/hall-words.ts';
import { piecesOf, pieceText } from '../../words/kit-words.ts';
import { minutesText } from '../../words/time-words.ts';
import { kitOf } from '../plans/sheet-rows.ts';
import { hashOf } from '../router.ts';
import { Cautions } from './cautions.tsx';
import { HallCardForm } from './hall-card-form.tsx';
import type { HallChoices } from './hall-choices.ts';
import type { Screen } from './hall-unit.ts';
import type { HallClock } from './instructor-strip.tsx';
import { readingDistances } from './reading-distances.ts';

export type BeforeClassProps = {
  readonly live: LiveClass;
  readonly plan: Plan;
  readonly library: MoveLibrary;
  readonly clock: HallClock;
  readonly card: HallCard | null;
  readonly onCard: (card: HallCard) => void;
  readonly choices: HallChoices;
  readonly onChoices: (choices: HallChoices) => void;
  readonly onRehearse: () => void;
};

/** All that is good to know before a class, below the button that starts it and never in its way. */
export function BeforeClass(props: BeforeClassProps) {
  const { live, plan, library, card, onCard } = props;
  return (
    <div class="hall-page before">
      <Head {...props} />
      <div class="before-checks">
        <Checks {...props} />
        <Kit plan={plan} library={library} />
        <Choices {...props} />
        <section aria-labelledby="hall-card">
          <h2 id="hall-card">If someone’s hurt</h2>
          <HallCardForm card={card} onCard={onCard} />
        </section>
      </div>
      <div class="before-read">
        <Cautions />
        <Reading />
      </div>
      {live.isRehearsal ? null : <a href={hashOf({ at: 'plan', planId: plan.id })}>Read the plan</a>}
    </div>
  );
}

function Head({ live, plan, clock }: BeforeClassProps) {
  const lengthMs = live.view.value.finishAtMs;
  const ends = clock.timeOfDay(clock.wallMs() + lengthMs / live.rate);
  return (
    <header class="before-head">
      <button type="button" class="ink-button" onClick={() => live.ask('start')}>
        {ASK_NAMES.start}
      </button>
      <h1>{plan.name}</h1>
      <p>
        {live.isRehearsal ? 'Rehearsal. ' : ''}
        {minutesText(lengthMs)}, ends at {ends} if you start now.
      </p>
    </header>
  );
}

function Checks({ live, onRehearse }: BeforeClassProps) {
  const missing = missingBeforeStart(live.facts.value);
  return (
    <section class="before-sound" aria-label="Checks">
      <div class="hall-buttons">
        <button type="button" onClick={live.soundCheck}>
          Sound check
        </button>
        {!live.isRehearsal && (
          <button type="button" onClick={onRehearse}>
            Rehearse
          </button>
        )}
      </div>
      <p>{SILENT_SWITCH}</p>
      {missing.map((text) => (
        <p key={text} class="before-missing">
          {text}
        </p>
      ))}
    </section>
  );
}

function Kit({ plan, library }: Pick<BeforeClassProps, 'plan' | 'library'>) {
  const pieces = piecesOf(kitOf(plan.blocks, library));
  return (
    <section class="before-kit" aria-labelledby="kit">
      <h2 id="kit">Kit for each person</h2>
      {pieces.length === 0 && <p>None.</p>}
      <ul>
        {pieces.map(({ kit, count }) => (
          <li key={kit}>
            <KitDrawing kit={kit} height={40} />
            <span>{pieceText(kit, count)}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}

const CHOICES: readonly (readonly [keyof HallChoices, string])[] = [
  ['steadyField', 'Steady field: a frame instead of the dark field before a change'],
  ['softLight', 'Softer light field, for a projector'],
];

function Choices({ choices, onChoices }: BeforeClassProps) {
  return (
    <section class="before-choices" aria-label="How the hall looks">
      {CHOICES.map(([choice, text]) => (
        <label key={choice}>
          <input
            type="checkbox"
            checked={choices[choice]}
            onChange={(event) => onChoices({ ...choices, [choice]: event.currentTarget.checked })}
          />
          <span>{text}</span>
        </label>
      ))}
    </section>
  );
}

function Reading() {
  const screen: Screen = { width: window.innerWidth, height: window.innerHeight };
  return (
    <section class="before-reading" aria-labelledby="reading">
      <h2 id="reading">How far it reads</h2>
      <dl>
        {readingDistances(screen).map(({ what, reachMm }) => (
          <div key={what}>
            <dt>{READING_TEXTS[what]}</dt>
            <dd>{metresText(reachMm)}</dd>
          </div>
        ))}
      </dl>
      <p class="quiet">
        An estimate for this screen as it is held now, at 0.165 mm a pixel: digits at 20 minutes of arc, words at 16. A
        larger screen reads from further. What does not read is heard.
      </p>
    </section>
  );
}
