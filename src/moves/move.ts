/** Names a move for good, e.g. `squat`. Lower-case letters, digits and hyphens. */
export type MoveId = string;

/** Where in a class a move belongs. */
export type Part = 'warmUp' | 'circuit' | 'stretch';

/** `inTurn`: full time each with a change; `reverse`: the other direction takes the place of the other side. */
export type Sides = 'both' | 'alternating' | 'inTurn' | 'reverse';

/** How the body is supported. Everything from `allFours` on is "on the floor". */
export type Position = 'standing' | 'sitting' | 'kneeling' | 'allFours' | 'lyingFront' | 'lyingBack' | 'lyingSide';

/** How hard the landing is: `low` keeps a foot down or steps quickly, `jump` leaves the floor. */
export type Impact = 'none' | 'low' | 'jump';

/** The movement pattern, by the trade's everyday names. */
export type Pattern =
  | 'squat'
  | 'lunge'
  | 'hinge'
  | 'push'
  | 'pull'
  | 'brace'
  | 'rotate'
  | 'carry'
  | 'jump'
  | 'run'
  | 'mobilise'
  | 'stretch';

/** A part of the body that a move works or lengthens. */
export type Region =
  | 'legs'
  | 'hips'
  | 'calves'
  | 'chest'
  | 'back'
  | 'shoulders'
  | 'arms'
  | 'trunk'
  | 'neck'
  | 'heartAndLungs';

/** How hard the move is for most people, as felt. */
export type Effort = 'light' | 'moderate' | 'hard';

/** A piece of equipment. A place to hook a band counts as kit. */
export type KitId =
  | 'mat'
  | 'band'
  | 'loopBand'
  | 'bandHook'
  | 'handWeight'
  | 'step'
  | 'chair'
  | 'wall'
  | 'rope'
  | 'floorLine';

/** What one person needs of each piece of kit; pieces not named are not needed. Counts are whole and above 0. */
export type KitNeeds = Readonly<Partial<Record<KitId, number>>>;

/** Names a drawing in `src/figures`; unknown names are drawn as a plain standing figure. */
export type FigureId = string;

/** Another way to do the same move. Lower options stand in order, the first is the one shown. */
export type Option = {
  readonly level: 'lower' | 'higher';
  readonly name: string;
  /** At most 10 characters, for the hall. */
  readonly hallName: string;
  /** One line: what is different and why that is easier or harder. */
  readonly how: string;
  readonly figure: FigureId;
};

/** An exercise. A circuit move has at least one lower option and at most four. */
export type Move = {
  readonly id: MoveId;
  readonly name: string;
  /** At most 10 characters, for the hall. */
  readonly hallName: string;
  readonly part: Part;
  readonly pattern: Pattern;
  readonly regions: readonly Region[];
  readonly position: Position;
  readonly impact: Impact;
  readonly effort: Effort;
  readonly sides: Sides;
  readonly kit: KitNeeds;
  readonly options: readonly Option[];
  /** What makes the move right, most telling first; shown one at a time to the instructor. */
  readonly formPoints: readonly string[];
  /** Whom to watch and what to avoid; empty when nothing beyond the general cautions. */
  readonly takeCareIf: readonly string[];
  readonly figure: FigureId;
};

/** Moves by their id. */
export type MoveLibrary = ReadonlyMap<MoveId, Move>;
