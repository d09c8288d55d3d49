import type { HallView } from '../../../src/class-run/hall-view.ts';
import { BigDigits } from '../../parts/big-digits.tsx';
import { InkLink } from '../../parts/ink-link.tsx';
import { againstPlanText, endedText } from '../../words/hall-words.ts';
import { minutesOf, minutesText } from '../../words/time-words.ts';
import { hashOf } from '../router.ts';

type EndedProps = {
  readonly planName: string;
  readonly view: Pick<HallView, 'status' | 'finishAtMs' | 'lateMs'>;
  /** Null where nothing was kept. */
  readonly recordId: string | null;
  /** After a rehearsal: ready for the class itself. Null after a class. */
  readonly onReadyAgain: (() => void) | null;
};

/** The hall at rest again: minutes that really passed against minutes of the plan. */
export function Ended({ planName, view, recordId, onReadyAgain }: EndedProps) {
  const { status, finishAtMs, lateMs } = view;
  return (
    <section class="hall-page ended">
      <h1>{endedText(status, onReadyAgain !== null)}</h1>
      <p class="ended-name">{planName}</p>
      <div class="ended-minutes">
        <BigDigits text={String(minutesOf(finishAtMs))} className="ended-digits" />
        <p>
          <span class="spoken-only">{minutesText(finishAtMs)}. </span>
          {againstPlanText(finishAtMs, finishAtMs - lateMs)}
        </p>
      </div>
      {onReadyAgain === null ? (
        <InkLink href={hashOf({ at: 'start' })}>Start page</InkLink>
      ) : (
        <button type="button" class="ink-button" onClick={onReadyAgain}>
          Ready for the class
        </button>
      )}
      {recordId !== null && (
        <a class="ended-review" href={hashOf({ at: 'record', recordId })}>
          How it really went
        </a>
      )}
    </section>
  );
}
