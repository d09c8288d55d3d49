import type { Happening, Why } from '../../src/class-run/marks.ts';
import type { RecordLine, StoreReason } from '../../src/ports/class-store.ts';
import type { RecordHead } from '../../src/records/stored-shapes.ts';
import { clockText } from './time-words.ts';

export function outcomeText(outcome: RecordHead['outcome']): string {
  switch (outcome) {
    case 'finished':
      return 'finished';
    case 'abandoned':
      return 'left before its end';
    case null:
      return 'not ended';
  }
}

type Unreadable = Extract<RecordLine, { readable: false }>['reason'];

export function unreadableRecordText(reason: Unreadable): string {
  return reason === 'tooNew'
    ? 'A class kept by a newer version of Hallpace. It is left as it is.'
    : 'A class that cannot be read. It is kept as it is.';
}

/** Said on the start page of a class that has not ended and cannot be gone on with; empty where nothing is wrong. */
export function openClassText(reason: StoreReason): string {
  if (reason === 'tooNew')
    return 'A class that has not ended was kept by a newer version of Hallpace. It is left as it is.';
  if (reason === 'unreadable')
    return 'A class that has not ended cannot be read back. What is kept of it stays as it is.';
  return '';
}

export function storeText(reason: StoreReason): string {
  const texts: Readonly<Record<StoreReason, string>> = {
    fenced: 'Another window has taken over. Go on there.',
    full: 'There is no room left on this phone.',
    unreadable: 'What is kept there cannot be read. Nothing was deleted.',
    tooNew: 'This was kept by a newer version of Hallpace. Nothing was changed.',
    unavailable: 'This phone does not let Hallpace read what it keeps just now.',
  };
  return texts[reason];
}

/** How entries are called in this class: a move by its name, anything else by what it is. */
export type NameOfEntry = (entryId: string) => string;

/** One thing that happened in a line of words. Null for what only follows from the line before. */
export function happeningText(happening: Happening, nameOf: NameOfEntry): string | null {
  switch (happening.kind) {
    case 'started':
      return 'Started';
    case 'paused':
      return happening.cause === 'hurt' ? 'Stopped: someone hurt' : 'Paused';
    case 'carriedOn':
      return 'Carried on';
    case 'changed':
      return changeText(happening.why, happening.entryId === null ? '' : nameOf(happening.entryId));
    case 'showed':
      return showedText(happening.level, nameOf(happening.entryId));
    case 'away':
      return `Ran on for ${clockText(happening.byMs)} while the phone slept`;
    case 'asked':
      return 'Stood still: the phone had been away and could not tell how long';
    case 'ranOn':
      return 'The class had gone on without the phone';
    case 'stood':
      return `Went back to where it stopped, ${clockText(happening.byMs)} before`;
    case 'wallMoved':
      return `The phone's clock was moved by ${clockText(happening.byMs)}; the class took no notice`;
    case 'finished':
      return 'Finished';
    case 'abandoned':
      return 'Left';
  }
}

function changeText(why: Why, name: string): string | null {
  const texts: Readonly<Record<Why, string | null>> = {
    skip: 'Went to the next move',
    back: 'Went back one',
    give: 'Gave more time',
    drop: `Dropped: ${name}`,
    trim: 'Shortened what was left',
    finishEarly: 'Finished early',
    countIn: null,
    wentOn: 'Went on from the wait point',
  };
  return texts[why];
}

function showedText(level: number, name: string): string {
  if (level === 0) return `Back to the move as planned: ${name}`;
  return `${level > 0 ? 'Lower' : 'Higher'} option for all: ${name}`;
}
