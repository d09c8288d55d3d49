import type { FigureView, NextView } from '../../../src/class-run/hall-values.ts';
import type { LiveClass } from '../../live/live-contract.ts';
import { Figure } from '../../parts/figure.tsx';
import { BREATHER_TEXT, milestoneText, OWN_PACE, roundsText, sideText, wordsText } from '../../words/hall-words.ts';
import { KitPile } from './kit-pile.tsx';
import { Ramp, Rounds, SideMark, TurnArrow } from './scene-marks.tsx';
import { lies, type SceneValues, sceneValues, staysDown } from './scene-values.ts';
import { useSteady } from './steady-signal.ts';

/** The boxes that figures are drawn for, in px of the design; the style sheet scales them with everything else. */
const MAIN_BOX = { width: 300, height: 300 };
const LOWER_BOX = { width: 120, height: 144 };
const NEXT_BOX = { width: 150, height: 272 };

/** The hall floor with everything that stands on it but the digits and the time left. */
export function Scene({ live }: { readonly live: Pick<LiveClass, 'view'> }) {
  const scene = useSteady(live.view, sceneValues);
  const { main, lower, next, round, rounds } = scene;
  return (
    <div class="scene" {...marksOf(scene)}>
      {lower !== null && <Lower figure={lower} />}
      {main !== null && <Main figure={main} />}
      {scene.words !== null && (main === null || scene.gate) && <SceneWords text={wordsText(scene.words)} />}
      <ThinLine />
      {next === null ? <Under scene={scene} /> : <Next next={next} staysDown={staysDown(main, next)} />}
      {scene.kit.length > 0 && <KitPile kit={scene.kit} />}
      {scene.isPaused && <PausePosts />}
      {scene.gate && <span class="gate" aria-hidden="true" />}
      <Rounds round={round} rounds={rounds} text={roundsText(round, rounds)} />
    </div>
  );
}

/** What the style sheet arranges the scene by. */
function marksOf({ main, next, kit, gate, round, rounds }: SceneValues): Record<string, string | undefined> {
  const when = (is: boolean): string | undefined => (is ? '' : undefined);
  return {
    'data-lies': when(lies(main)),
    'data-next': next === null ? undefined : next.straightIn ? 'joined' : 'apart',
    'data-kit': when(kit.length > 0),
    'data-gate': when(gate),
    'data-last-round': when(rounds > 1 && round === rounds),
  };
}

const liesMark = (figure: FigureView): string | undefined => (lies(figure) ? '' : undefined);

/** Upright, a short name has the width to be larger. */
function lengthMark(name: string): string {
  if (name.length <= 6) return 'no';
  return name.length <= 8 ? 'some' : 'very';
}

function Main({ figure }: { readonly figure: FigureView }) {
  const side = sideText(figure);
  return (
    <>
      <div class="main-figure" data-lies={liesMark(figure)}>
        <Figure figure={figure.figure} box={MAIN_BOX} working={figure.side} />
      </div>
      <SideMark figure={figure} />
      <div class="main-names">
        <h2 class="main-name" data-long={lengthMark(figure.hallName)}>
          <span class="hall-name">{figure.hallName}</span>
          <span class="spoken-only">, {figure.name}</span>
        </h2>
        {side !== '' && <p class="side-name">{side}</p>}
      </div>
    </>
  );
}

/** Down the ramp, for whoever needs it. */
function Lower({ figure }: { readonly figure: FigureView }) {
  return (
    <>
      <div class="lower-figure" data-lies={liesMark(figure)}>
        <Figure figure={figure.figure} box={LOWER_BOX} working={figure.side} />
      </div>
      <Ramp />
      <p class="lower-name">
        <span class="spoken-only">Lower option: </span>
        {figure.hallName.toLowerCase()}
      </p>
    </>
  );
}

/** In the room that the tens have left. */
function Next({ next, staysDown: stays }: { readonly next: NextView; readonly staysDown: boolean }) {
  return (
    <>
      <div class="next-figure" data-lies={liesMark(next.figure)}>
        {stays && <span class="lid" aria-hidden="true" />}
        <TurnArrow turn={next.turn} />
        <Figure figure={next.figure.figure} box={NEXT_BOX} working={next.figure.side} />
      </div>
      <p class="next-name">
        <span class="spoken-only">Next: </span>
        <span class="hall-name">{next.figure.hallName}</span>
        <span class="spoken-only">{turnText(next.turn, stays)}</span>
      </p>
    </>
  );
}

function turnText(turn: NextView['turn'], stays: boolean): string {
  if (turn !== 'stay') return turn === 'up' ? ', everyone up' : ', everyone down';
  return stays ? ', stay down' : '';
}

/** The line on which all stand, with posts at its ends and in the middle; cut where a changeover lies before the next. */
function ThinLine() {
  return (
    <div class="thin-line" aria-hidden="true">
      <span class="thin-main" />
      <span class="thin-next" />
      <span class="post post-start" />
      <span class="post post-middle" />
      <span class="post post-end" />
    </div>
  );
}

function PausePosts() {
  return (
    <div class="pause-posts" aria-hidden="true">
      <span />
      <span />
    </div>
  );
}

/** Words under the digits while no next move stands there. */
function Under({ scene }: { readonly scene: SceneValues }) {
  const rest = scene.kind === 'breather' ? BREATHER_TEXT : '';
  const lines = [rest, scene.isFirstCount ? OWN_PACE : '', milestoneText(scene.milestone), scene.forSome];
  const shown = lines.filter((line) => line !== null && line !== '');
  return (
    <div class="under">
      {shown.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </div>
  );
}

/** The longer what is said, the smaller it stands, so that it stays on the wall. */
function SceneWords({ text }: { readonly text: string }) {
  const size = text.length > 80 ? 'small' : text.length > 32 ? 'middle' : 'large';
  return (
    <p class="scene-words" data-size={size}>
      {text}
    </p>
  );
}
