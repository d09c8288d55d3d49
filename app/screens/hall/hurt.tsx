import type { HallCard } from '../../../src/records/stored-shapes.ts';
import type { LiveClass } from '../../live/live-contract.ts';
import { ASK_NAMES } from '../../words/hall-words.ts';
import { clockText } from '../../words/time-words.ts';
import type { HallClock } from './instructor-strip.tsx';

type HurtProps = {
  readonly live: LiveClass;
  /** Null where none was filled in. */
  readonly card: HallCard | null;
  readonly clock: HallClock;
};

/** Silence, and what to tell whoever answers the call. Nothing else is on this screen. */
export function Hurt({ live, card, clock }: HurtProps) {
  const { atMs, standing } = live.view.value;
  const number = card?.emergencyNumber ?? '';
  return (
    <section class="hall-page hurt">
      <h1>Call for help</h1>
      <dl>
        <div class="hurt-number">
          <dt>Emergency number</dt>
          <dd>{number === '' ? 'Not filled in: call the local emergency number' : <Call number={number} />}</dd>
        </div>
        <Item name="This hall" text={card?.address ?? ''} missing="Not filled in: ask who knows the address" />
        <Item
          name="Defibrillator"
          text={card?.defibrillator ?? ''}
          missing="Not filled in: send someone to ask for one"
        />
        <div class="hurt-time">
          <dt>Time now</dt>
          <dd>
            {clock.timeOfDay(clock.wallMs())}
            <span class="hurt-since">
              {clockText((atMs - (standing?.sinceMs ?? atMs)) / live.rate)} since the class was stopped
            </span>
          </dd>
        </div>
      </dl>
      <button type="button" class="hurt-on" onClick={() => live.ask('carryOn')}>
        {ASK_NAMES.carryOn}
      </button>
    </section>
  );
}

function Call({ number }: { readonly number: string }) {
  return <a href={`tel:${number.replace(/[^\d+*#]/g, '')}`}>{number}</a>;
}

function Item({ name, text, missing }: { readonly name: string; readonly text: string; readonly missing: string }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{text === '' ? <span class="hurt-missing">{missing}</span> : text}</dd>
    </div>
  );
}
