import { effect, signal, untracked } from '@preact/signals';
import { render } from 'preact';
import { libraryOf } from '../src/moves/library.ts';
import type { OpenClass } from '../src/ports/class-store.ts';
import type { OfflineFact } from '../src/ports/offline-copy.ts';
import type { HallCard } from '../src/records/stored-shapes.ts';
import { planShelf } from './live/plan-shelf.ts';
import type { ClassParts } from './platform/class-parts.ts';
import { firstParts } from './platform/first-parts.ts';
import { starterData } from './platform/starter/starter-data.ts';
import { App, type ClassRooms, type DeskRooms } from './screens/app.tsx';
import { type HallChoices, readChoices } from './screens/hall/hall-choices.ts';
import { planLine } from './screens/plans/plan-line.ts';
import { hashOf, readRoute } from './screens/router.ts';
import type { ClassToResume } from './screens/start/start.tsx';
import { stayInClass } from './screens/stay-in-class.ts';
import { openClassText } from './words/record-words.ts';
import { timeOfDayHereText } from './words/time-words.ts';
import './styles/tokens.css';
import './styles/type.css';
import './styles/base.css';

// This file and what it imports is what the first picture waits for: it must not grow. What a class needs comes in
// `openClassRooms`, fetched along with it and never later: a class loads nothing.

/** The first picture does not wait longer than this for the database or the starter data: either can hang. */
const FIRST_PICTURE_MS = 1500;

/** By then a database that answers has said whether a class goes on. */
const STOCK_MS = 900;
/** A class that goes on is drawn before what it does not show is fetched. */
const PICTURE_FIRST_MS = 500;

const first = firstParts();
const shelf = planShelf(first.planStore, first.clocks);
const route = signal(readRoute(location.hash));
const rooms = signal<ClassRooms | null>(null);
const deskRooms = signal<DeskRooms | null>(null);
const offline = signal<OfflineFact>('installing');
const notice = signal('');
const elsewhere = signal<ClassToResume | null>(null);
const hallCard = signal<HallCard | null>(null);
const choices = signal(readChoices(first.choices.read()));
let phoneParts: ClassParts | null = null;

const isLive = (): boolean => rooms.value?.house.visit.value?.live.isLive.value === true;

async function openClassRooms(): Promise<ClassRooms> {
  const { classRooms } = await import('./class-rooms.ts');
  const made = classRooms(first, () => untracked(isLive));
  phoneParts = made.parts;
  const { offlineCopy } = made.parts;
  offline.value = offlineCopy.fact();
  offlineCopy.listen((fact) => {
    offline.value = fact;
  });
  return made.rooms;
}

async function openDeskRooms(): Promise<void> {
  const { DeskRoom } = await import('./screens/desk/desk-room.tsx');
  deskRooms.value = { Room: DeskRoom };
}

/** The hall is entered and left as the address says; a live class stays where it is. */
function followRoute(): void {
  const at = route.value;
  const house = rooms.value?.house;
  const shelved = at.at === 'hall' ? shelf.plans.value.find(({ plan }) => plan.id === at.planId) : undefined;
  untracked(() => {
    if (shelved !== undefined) house?.enter(shelved);
    else if (at.at !== 'hall') house?.leave();
  });
}

function seenElsewhere({ head, paper, marks, beat }: OpenClass): ClassToResume {
  const { figure } = planLine(paper.plan, libraryOf(paper.moves));
  const atMs = Math.max(beat?.atMs ?? 0, marks.at(-1)?.atMs ?? 0);
  return { planId: head.planId, name: head.planName, atMs, figure };
}

/** A class that has not ended is taken up again, and gets the address of its hall so that its end is seen there too. */
async function takeUp(open: OpenClass, opening: Promise<ClassRooms>): Promise<void> {
  const found = await opening;
  await found.house.takeUp(open);
  const visit = found.house.visit.value;
  if (found.house.isBent.value) notice.value = openClassText('unreadable');
  if (visit === null) {
    elsewhere.value = seenElsewhere(open);
    return;
  }
  history.replaceState(history.state, '', hashOf({ at: 'hall', planId: visit.plan.id }));
  route.value = readRoute(location.hash);
  rooms.value = found;
}

/** Until the rooms are open for all, only a class that goes on opens them. It has all its papers and waits for nothing else. */
const hasClass = (): boolean => rooms.peek() !== null;

/** What the first picture shows: a class that goes on, and else the plan that is ready. */
async function findFirst(opening: Promise<ClassRooms>): Promise<void> {
  const open = await first.store.openClass();
  if (!open.ok) notice.value = openClassText(open.reason);
  else if (open.value !== null) await takeUp(open.value, opening);
  if (!hasClass()) await stock();
}

let stocking: Promise<void> | null = null;

function stock(): Promise<void> {
  stocking ??= starterData(first.log).then(shelf.stock);
  return stocking;
}

function touch(): void {
  rooms.peek()?.house.visit.peek()?.live.touch();
}

function putHallCard(card: HallCard): void {
  hallCard.value = card;
  first.store.putHallCard(card).catch((error) => first.log.note('hall card: not kept', error));
}

function putChoices(next: HallChoices): void {
  choices.value = next;
  first.choices.write(JSON.stringify(next));
}

function show(host: HTMLElement): void {
  const { clocks, timers, store } = first;
  const app = (
    <App
      route={route}
      classRooms={rooms}
      deskRooms={deskRooms}
      shelf={shelf}
      store={store}
      hallCard={hallCard}
      onHallCard={putHallCard}
      elsewhere={elsewhere}
      notice={notice}
      offline={offline}
      onTakeNewVersion={() => phoneParts?.offlineCopy.applyUpdate()}
      isSecure={isSecureContext}
      clock={{ wallMs: clocks.wallMs, timeOfDay: timeOfDayHereText }}
      monoClock={clocks}
      timers={timers}
      choices={choices}
      onChoices={putChoices}
    />
  );
  render(app, host);
}

async function open(host: HTMLElement): Promise<void> {
  addEventListener('hashchange', () => {
    route.value = readRoute(location.hash);
  });
  stayInClass(window, isLive);
  // Released, not pressed: a finger's press alone is no leave to sound in every browser.
  for (const type of ['pointerup', 'keydown']) addEventListener(type, touch);
  const opening = openClassRooms();
  // A database that hangs holds up no plan.
  first.timers.after(STOCK_MS, () => !hasClass() && void stock());
  const late = new Promise<void>((settle) => first.timers.after(FIRST_PICTURE_MS, settle));
  await Promise.race([findFirst(opening), late]);
  show(host);
  rooms.value = await opening;
  effect(followRoute);
  if (untracked(isLive)) await new Promise<void>((settle) => first.timers.after(PICTURE_FIRST_MS, settle));
  const card = await first.store.hallCard();
  if (card.ok) hallCard.value = card.value;
  await Promise.all([stock().then(shelf.read), openDeskRooms()]);
}

const host = document.getElementById('app');
if (host === null) throw new Error('index.html has no #app');
open(host).catch((error) => first.log.note('app: did not open', error));
