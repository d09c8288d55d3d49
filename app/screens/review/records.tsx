import { useEffect, useState } from 'preact/hooks';
import type { Kept, RecordLine, StoreReason } from '../../../src/ports/class-store.ts';
import type { RecordHead } from '../../../src/records/stored-shapes.ts';
import { PageTop } from '../../parts/page-top.tsx';
import { outcomeText, storeText, unreadableRecordText } from '../../words/record-words.ts';
import { dayText, minutesOf, timeOfDayText } from '../../words/time-words.ts';
import { hashOf } from '../router.ts';
import { addPage, FIRST_PAGE, PAGE_SIZE, type Pages } from './record-pages.ts';
import './records.css';

export type RecordsProps = {
  /** Newest first, at most `limit` that started before `beforeWallMs`. Never rejects. */
  readonly listRecords: (beforeWallMs: number, limit: number) => Promise<Kept<readonly RecordLine[]>>;
};

/** The classes that ran on this phone, newest first, a page at a time. */
export function Records({ listRecords }: RecordsProps) {
  const [pages, setPages] = useState<Pages>(FIRST_PAGE);
  const [fault, setFault] = useState<StoreReason | null>(null);

  const loadOlder = async (): Promise<void> => {
    const got = await listRecords(pages.beforeWallMs, PAGE_SIZE);
    setFault(got.ok ? null : got.reason);
    if (got.ok) setPages((before) => addPage(before, got.value));
  };
  useEffect(() => {
    void loadOlder();
  }, []);

  return (
    <main class="page records">
      <PageTop title="Classes that ran" back={{ href: hashOf({ at: 'start' }), name: 'Start' }} />
      {pages.isLoaded && pages.lines.length === 0 && <p class="records-none">No class has run on this phone yet.</p>}
      <ol class="records-list">
        {pages.lines.map((line) => (
          <li key={line.readable ? line.head.id : line.id}>
            {line.readable ? (
              <RecordRow head={line.head} />
            ) : (
              <p class="record-unreadable">{unreadableRecordText(line.reason)}</p>
            )}
          </li>
        ))}
      </ol>
      {fault !== null && (
        <p class="records-fault" role="alert">
          {storeText(fault)}
        </p>
      )}
      {(pages.hasOlder || fault !== null) && (
        <button type="button" class="records-older" onClick={() => void loadOlder()}>
          {fault === null ? 'Show older' : 'Try again'}
        </button>
      )}
    </main>
  );
}

/** What the whole width of a line stands for. */
const WHOLE_MS = 60 * 60_000;

function RecordRow({ head }: { readonly head: RecordHead }) {
  const ranMs = head.endedWallMs === null ? null : Math.max(0, head.endedWallMs - head.startedWallMs);
  return (
    <a class="record-row" href={hashOf({ at: 'record', recordId: head.id })}>
      <span class="record-when">
        <span class="record-day">{dayText(head.startedWallMs, head.zone)}</span>
        <span>
          {timeOfDayText(head.startedWallMs, head.zone)}, {head.planName}
        </span>
      </span>
      {ranMs !== null && (
        <span class="record-minutes">
          {minutesOf(ranMs)}
          <span class="spoken-only"> minutes</span>
        </span>
      )}
      <svg class="record-floor" width="100%" height="12" aria-hidden="true">
        <rect width={`${Math.min(100, (100 * (ranMs ?? 0)) / WHOLE_MS)}%`} height="12" />
      </svg>
      <span class="quiet">{outcomeText(head.outcome)}</span>
    </a>
  );
}
