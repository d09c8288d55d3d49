import type { FigureId } from '../../../src/moves/move.ts';
import type { OfflineFact } from '../../../src/ports/offline-copy.ts';
import { BigDigits } from '../../parts/big-digits.tsx';
import { Figure } from '../../parts/figure.tsx';
import { InkLink } from '../../parts/ink-link.tsx';
import { offlineText } from '../../words/offline-words.ts';
import { clockText, minutesOf, minutesText } from '../../words/time-words.ts';
import { hashOf, type Route } from '../router.ts';
import './start.css';

/** The class that would run now. */
export type StartClass = {
  readonly planId: string;
  readonly name: string;
  readonly hallMs: number;
  readonly figure: FigureId;
};

/** A class that was started and has not ended; `atMs` is where it was last seen on its own clock. */
export type ClassToResume = {
  readonly planId: string;
  readonly name: string;
  readonly atMs: number;
  readonly figure: FigureId;
};

export type StartProps = {
  /** Null while no plan is known. */
  readonly ready: StartClass | null;
  readonly resume: ClassToResume | null;
  /** What else there is to know before a class; empty for nothing. */
  readonly notice: string;
  readonly offline: OfflineFact;
  /** False on an address without https: then the phone keeps nothing and may go dark. */
  readonly isSecure: boolean;
  readonly onTakeNewVersion: () => void;
};

/** The hall at rest. */
export function Start({ ready, resume, notice, offline, onTakeNewVersion, isSecure }: StartProps) {
  return (
    <main class="page start">
      <h1 class="spoken-only">Hallpace</h1>
      {resume !== null && <Resume resume={resume} />}
      {ready !== null && (resume === null ? <HallAtRest ready={ready} /> : <AnotherClass ready={ready} />)}
      <div class="start-rest">
        {notice !== '' && <p role="alert">{notice}</p>}
        <Places />
        <p class="start-offline" role="status">
          {offlineText(offline, isSecure)}
        </p>
        {offline === 'waiting' && resume === null && (
          <div class="start-new">
            <p>A new version is ready.</p>
            <button type="button" onClick={onTakeNewVersion}>
              Open the new version
            </button>
          </div>
        )}
      </div>
    </main>
  );
}

/** Digits of a class that stands are hollow, here as in the hall. */
function Resume({ resume }: { readonly resume: ClassToResume }) {
  return (
    <section class="start-hall" aria-label="A class that has not ended">
      <p class="start-name">{resume.name}</p>
      <div class="start-scene">
        <Figure figure={resume.figure} />
        <BigDigits text={String(Math.floor(resume.atMs / 60_000))} className="start-digits" isHollow={true} />
      </div>
      <div class="start-floor">
        <InkLink href={hashOf({ at: 'hall', planId: resume.planId })}>Back into the class</InkLink>
      </div>
      <p class="start-under">This class has not ended. Last seen {clockText(resume.atMs)} after its start.</p>
    </section>
  );
}

function HallAtRest({ ready }: { readonly ready: StartClass }) {
  return (
    <section class="start-hall" aria-label={ready.name}>
      <p class="start-name">{ready.name}</p>
      <div class="start-scene">
        <Figure figure={ready.figure} />
        <BigDigits text={String(minutesOf(ready.hallMs))} className="start-digits" />
      </div>
      <div class="start-floor">
        <InkLink href={hashOf({ at: 'hall', planId: ready.planId })}>Run this class</InkLink>
      </div>
      <p class="start-under">{minutesText(ready.hallMs)}</p>
    </section>
  );
}

function AnotherClass({ ready }: { readonly ready: StartClass }) {
  return (
    <section class="start-another" aria-label={ready.name}>
      <p class="start-name">{ready.name}</p>
      <p>{minutesText(ready.hallMs)}</p>
      <InkLink href={hashOf({ at: 'hall', planId: ready.planId })}>Run this class</InkLink>
    </section>
  );
}

const PLACES: readonly (readonly [Route, string])[] = [
  [{ at: 'plans' }, 'Plans'],
  [{ at: 'review' }, 'Classes that ran'],
  [{ at: 'moves' }, 'Moves'],
  [{ at: 'courses' }, 'Courses'],
  [{ at: 'backups' }, 'Backups'],
];

function Places() {
  return (
    <nav aria-label="Everything else">
      <ul class="start-places">
        {PLACES.map(([route, name]) => (
          <li key={route.at}>
            <a href={hashOf(route)}>{name}</a>
          </li>
        ))}
      </ul>
    </nav>
  );
}
