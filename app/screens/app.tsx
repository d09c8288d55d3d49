import type { ReadonlySignal } from '@preact/signals';
import type { ComponentChild } from 'preact';
import type { OfflineFact } from '../../src/ports/offline-copy.ts';
import type { House } from '../live/house.ts';
import type { DeskProps } from './desk/desk-props.ts';
import type { RoomProps } from './hall/room-props.ts';
import { planLine } from './plans/plan-line.ts';
import { type ClassToResume, Start } from './start/start.tsx';

/** The part of the app that a class needs; it comes after the first picture and before any Start. */
export type ClassRooms = { readonly house: House; readonly Room: (props: RoomProps) => ComponentChild };

/** The part of the app for the desk: plans and classes that ran. */
export type DeskRooms = { readonly Room: (props: DeskProps) => ComponentChild };

/** Everything the screens stand on; main joins it. */
export type AppNeeds = Omit<RoomProps, 'house'> &
  Omit<DeskProps, 'route'> & {
    readonly classRooms: ReadonlySignal<ClassRooms | null>;
    readonly deskRooms: ReadonlySignal<DeskRooms | null>;
    /** A class that runs in another window, for as long as it does. */
    readonly elsewhere: ReadonlySignal<ClassToResume | null>;
    readonly notice: ReadonlySignal<string>;
    readonly offline: ReadonlySignal<OfflineFact>;
    readonly onTakeNewVersion: () => void;
    readonly isSecure: boolean;
  };

/** A live class is on the screen whatever the address says; else the address decides. */
export function App(needs: AppNeeds) {
  const rooms = needs.classRooms.value;
  const route = needs.route.value;
  const isInHall = route.at === 'hall' || rooms?.house.visit.value?.live.isLive.value === true;
  if (isInHall)
    return rooms === null ? <main class="hall field-light" /> : <rooms.Room {...needs} house={rooms.house} />;
  if (route.at === 'start') return <StartPlace {...needs} />;
  const desk = needs.deskRooms.value;
  return desk === null ? <main class="page" /> : <desk.Room {...needs} route={route} />;
}

function StartPlace({ shelf, classRooms, elsewhere, notice, offline, onTakeNewVersion, isSecure }: AppNeeds) {
  const [first] = shelf.plans.value;
  const line = first === undefined ? null : planLine(first.plan, first.library);
  const isElsewhere = classRooms.value?.house.seat.value === 'other';
  return (
    <Start
      ready={line}
      resume={isElsewhere ? elsewhere.value : null}
      notice={notice.value}
      offline={offline.value}
      onTakeNewVersion={onTakeNewVersion}
      isSecure={isSecure}
    />
  );
}
