// The contract of the live socket and of the calls of the pages, as the server writes them.
// Angles are degrees, speeds knots, heights feet, times seconds of the stream's own clock.

export type Verdict = 'met' | 'near' | 'missed' | 'not-measured';
export type Direction = 'right' | 'left' | '';
export type StationLink = 'live' | 'paused' | 'silent' | 'gone' | 'replaying';
export type FlightState = 'set-up' | 'turn' | 'leg' | 'after';
/**
 * From the one that interrupts everything: a limit is passed; it is over, or a cue is not to be said; a person speaks;
 * an error grows; before a checkpoint; how a checkpoint went; how the leg went; what to do in the next; of the set-up; said once more.
 */
export type CalloutKind =
  'safety' | 'clear' | 'said' | 'watch' | 'cue' | 'after' | 'result' | 'next' | 'set-up' | 'done' | 'again';
export type LaneChannel = 'bank' | 'pitch' | 'airspeed' | 'height' | 'radius' | 'pivotal';

export interface Gate {
  id: string;
  label: Phrase;
  want: Phrase;
  value: number | null;
  unit: string;
  ok: boolean;
  /** Shown, but not needed to be ready. */
  optional?: boolean;
}

export interface Setup {
  time: number;
  ready: boolean;
  gates: Gate[] | null;
}

export interface Phase {
  time: number;
  phase: string;
  turn: number;
  direction: Direction;
}

export interface Callout {
  time: number;
  kind: CalloutKind;
  id: string;
  words: string;
  /** The same words where they have arguments or a code; without it, they are looked up as they are. */
  phrase?: Phrase;
  /** The person who says it; left out it is the coach. */
  by?: string;
  tone: 'met' | 'missed' | 'safety' | '';
  turn: number;
  /** Of cues: the turn angle of their checkpoint; a little before the full turn is the exit. */
  to?: number;
  /** Of cues: the stream time of the checkpoint, as predicted when the cue came. Begin when
   * the time to it (in frame.cues where `to` is the same, else due less the time of now) is down to the length of
   * the phrase. */
  due?: number;
}

/** A point holds the channels the stream has, beside these two. */
export interface Point {
  turn: number;
  time: number;
  [channel: string]: number;
}

export type Band = [number | null, number | null];

/** A verdict as it was computed, where another stands in its place. */
export interface Computed {
  verdict: Verdict;
  score: number;
  /** Of a leg or a series. */
  grade?: Grade;
}

/** Who gave a verdict in the place of a computed one. */
export interface Overruled {
  by: string;
  /** RFC 3339 */
  at: string;
  reason: string;
  afterSigning?: boolean;
}

export interface Check {
  computed?: Computed;
  overruled?: Overruled;
  id: string;
  label: string;
  kind: string;
  channel?: string;
  turn?: number;
  at?: number;
  value: number | null;
  unit: string;
  aim?: number;
  met: Band;
  near: Band;
  weight: number;
  verdict: Verdict;
  score: number;
  words: string;
  reason?: Phrase;
  /** What more there is to say: the worst moment, the shares. */
  note?: Phrase;
  /** The turn angle of the checkpoint that the check belongs to, 0 for the entry; left out it is the whole leg. */
  post?: number;
  /** The value lies past a limit of the card. */
  pastLimit?: boolean;
  /** Of a coarsely sampled leg: how far off the value may be, and what that could change. */
  uncertainty?: number;
  doubt?: string;
}

/** "" when nothing was measured. */
/** How a leg ended. */
export type Outcome = 'finished' | 'broken-off' | 'knock-off';

export type Grade = '' | 'unable' | 'fair' | 'good' | 'excellent';

export interface Cause {
  id: string;
  /** The leg of the series; 0 is the series as a whole. */
  leg: number;
  share: number;
  evidence: Phrase;
  advice: Phrase;
  /** It cost little, or nothing was missed. */
  minor?: boolean;
}

export interface Trace {
  turn: number;
  time: number;
  bank: number;
  pitch: number;
  airspeed: number | null;
  height: number | null;
  /** Feet over the ground from the entry: along its heading, and toward the side of the turn. */
  along: number | null;
  across: number | null;
  /** Off what the leg is flown about: % of the distance from a center, ft above the pivotal altitude at a pylon. */
  off?: number | null;
}

/** A point of a leg with the margins over stall (kt) and hard deck (ft); those of a leg that is over have none. */
export interface Flown extends Trace {
  stall?: number | null;
  deck?: number | null;
}

/** The verdict at a checkpoint, 0 for the entry; turn is null for the leg as a whole. */
export interface Post {
  turn: number | null;
  verdict: Verdict;
}

/** How a leg stands to what it is flown about, now. */
export interface Around {
  what: 'center' | 'pylon';
  chosen?: boolean;
  bearing: number | null;
  distance: number | null;
  radius: number | null;
  off: number | null;
  hold: { now: number; ahead: [number, number][] | null } | null;
  ahead: number | null;
  pivotal: number | null;
  above: number | null;
  /** ft: how far off the point may be; left out where it was chosen. */
  within?: number | null;
}

/** The body of POST /api/stations/{name}/about. */
export interface AboutChoice {
  where?: 'here' | 'wing' | 'left' | 'right';
  distance?: number | null;
  clear?: boolean;
}

export interface About {
  what: 'center' | 'pylon';
  /** By a person; else it was found from the flight. */
  chosen?: boolean;
  latitude: number;
  longitude: number;
  /** ft over the ground from the entry, as in the trace. */
  along: number;
  across: number;
  /** ft, the mean distance from it. */
  radius: number;
  /** ft: how far off it may be; left out where it was chosen, and in legs of an earlier version. */
  within?: number;
  wind: { from: number; speed: number } | null;
}

export interface Leg {
  computed?: Computed;
  overruled?: Overruled;
  number: number;
  direction: Direction;
  outcome: Outcome;
  reason: Phrase;
  start: number;
  end: number;
  entry: Point;
  points: Point[] | null;
  exit: Point | null;
  checks: Check[] | null;
  causes: Cause[] | null;
  change: Phrase;
  verdict: Verdict;
  score: number;
  grade: Grade;
  /** What the verdict rests on; left out in legs of an earlier version. */
  headline?: Phrase;
  /** The verdicts at the checkpoints; left out in legs of an earlier version. */
  posts?: Post[];
  /** What was flown instead of the chosen maneuver. */
  another?: { maneuver: string; title: string };
  /** The aircraft card that the numbers of the flight fit, where none was chosen. */
  propose?: { aircraft: string; title: string; entry: number; stall?: number };
  /** How the drill stands that it was flown in. */
  drill?: Drilled;
  /** The point on the ground that it was flown about; left out for maneuvers that have none. */
  about?: About;
  /** Given on the way. */
  corrections: number;
  /** Left out where it is empty, and in a hello's series. */
  trace?: Trace[];
}

/** How a drill on one cause stands after a leg. */
export interface Drilled {
  cause: string;
  /** Of the checks that show the cause. */
  verdict: Verdict;
  /** Good legs in a row. */
  row: number;
  /** That end the drill. */
  want: number;
  change?: Phrase;
}

export interface Series {
  maneuver: string;
  standard: string;
  aircraft: string;
  verdict: Verdict;
  score: number;
  grade: Grade;
  /** What the verdict rests on. */
  headline?: Phrase;
  checks: Check[] | null;
  causes: Cause[] | null;
  change: Phrase;
  legs: Leg[] | null;
  /** What the card wants and was not flown; left out when the series is complete. */
  missing?: Phrase;
  /** How sure it is which maneuver this was; only where it was found, not chosen. */
  decision?: { maneuver: string; margin: number; fits: { maneuver: string; misfit: number }[] | null };
}

export interface Next {
  turn: number;
  label: string;
  words: string;
  want: Phrase;
  seconds: number | null;
  point: number;
}

/** The flight over the ground; along and across as in a Trace, 0 before a leg. */
export interface Ground {
  along: number;
  across: number;
  /** By the compass the heading is of; null when hardly moving. */
  track: number | null;
  /** Of the track from the heading, right positive. */
  drift: number | null;
  wind: { from: number; speed: number } | null;
}

/** The ground line as chosen. */
export interface Line {
  heading: number;
  /** Where the reference point was chosen; "" is the side of the turn. */
  side: Direction;
  /** NM to the reference point; null is the usual distance. */
  distance: number | null;
  /** Degrees of the nose from the nearer direction of the line, right positive. */
  off: number;
}

export interface Frame {
  time: number;
  state: FlightState;
  direction: Direction;
  turn: number;
  phase: string;
  values: Record<string, number> | null;
  climb: number | null;
  stall: number | null;
  deck: number | null;
  point: number | null;
  /** By what the point's bearing is known. */
  pointBy: 'position' | 'heading' | '';
  /** NM from here to the reference point. */
  pointDistance: number | null;
  around?: Around | null;
  ground: Ground | null;
  line: Line | null;
  next: Next | null;
  /** Seconds until the turn angles of the cues come that were sent and are still ahead; to as in the callout. */
  cues: { to: number; seconds: number }[] | null;
  gates: Gate[] | null;
  ready: boolean;
  /** A leg of which it is not clear yet which maneuver it is: next, phase and cues are left out. */
  unclear: boolean;
  /** A leg that was flown to its exit and has no verdict yet: the recovery after it is being watched. */
  awaited: { leg: number; start: number } | null;
}

export interface Station {
  name: string;
  address: string;
  link: StationLink;
  format: string;
  advice: Phrase;
  rate: number;
  channels: string[] | null;
  derived: string[] | null;
  missing: string[] | null;
  maneuver: string;
  /** The maneuver is found from what is flown; the one named is the last found. */
  auto: boolean;
  aircraft: string;
  /** How much is said in flight. */
  prompts: Prompts;
  /** What is practiced: a step of a course, or a drill; not there when it is neither. */
  task?: Task;
  /** The id of the session that is flown, '' before anything was. */
  session: string;
  /** The id of the session before, when it was ended by a touch and the next has not begun, else ''. */
  ended: string;
  /** Who flies, '' when not said. */
  student: string;
  /** Resting: a session was ended by a touch, and the next has not begun. */
  recording: 'on' | 'off' | 'failing' | 'resting' | '';
  /** What is wrong with the recording and what to do, '' when all is well. */
  recordingWords: Phrase;
  /** What went wrong here with the session before, until a leg is flown; not there when all is well. */
  trouble?: Phrase;
  /** Of a recorded session played again. */
  replay?: Replaying;
  /** The built-in aircraft flies, to show how it is done. */
  demonstration?: boolean;
  /** Its pilot shares it with nobody. */
  private?: boolean;
  /** With another Halfturn; not there when it is not shared. */
  share?: Share;
}

/** A step of a course that is flown, or a drill. */
export interface Task {
  /** Of the step; '' of a drill. */
  title: string;
  course: string;
  step: string;
  state: 'locked' | 'open' | 'passed' | 'slipped' | '';
  /** What counts toward passing it. */
  sides?: { direction: Direction | ''; good: number; need: number }[];
  /** That is drilled. */
  cause?: string;
  row: number;
  want?: number;
  prompts: Prompts;
  /** A person has set how much is said. */
  own?: boolean;
}

/** The link of a station to another Halfturn. */
export interface Share {
  /** The host of the school, '' at the school. */
  with: string;
  /** What the school calls the station. */
  as: string;
  /** There is a link. */
  up: boolean;
  /** Seconds of which the school does not have the recording yet. */
  behind: number;
  /** Seconds that the clock of the school is ahead. */
  clock: number;
  /** Why the school does not let the home in, '' when it does. */
  why: Phrase;
}

/** Where a replay stands, in seconds of the recording. */
export interface Replaying {
  session: string;
  position: number;
  duration: number;
  pace: number;
  paused: boolean;
  over: boolean;
}

export interface Checkpoint {
  turn: number;
  label: string;
  words: string;
  want: Phrase;
}

export interface Corridor {
  turn: number;
  low: number;
  aim: number;
  high: number;
}

export interface Lane {
  channel: LaneChannel;
  title: Phrase;
  unit: string;
  low: number;
  high: number;
  ticks: number[] | null;
  corridor: Corridor[] | null;
}

export interface Plan {
  maneuver: string;
  title: string;
  standard: string;
  aircraft: string;
  turn: number;
  legs: number;
  checkpoints: Checkpoint[] | null;
  lanes: Lane[] | null;
  cautions: string[] | null;
  /** What the maneuver asks for and the aircraft may not do; null from an older server. */
  warnings?: Phrase[] | null;
}

export interface LiveSession {
  id: string;
  state: 'began' | 'ended';
  legs: number;
}

/** All a viewer needs to draw a station from nothing. Run names the numbering seq is of. */
export interface Hello {
  version: number;
  server: string;
  run: string;
  stations: string[] | null;
  info: Station | null;
  plan: Plan | null;
  frame: Frame | null;
  trace: Flown[] | null;
  last: Leg | null;
  /** What the last leg was flown of, where another choice was made since; else null. */
  lastPlan: Plan | null;
  other: Leg | null;
  series: Series[] | null;
  callouts: Callout[] | null;
  /** The latest command, and who gave it. */
  acted?: Acted;
  /** Left out while nobody else watches. */
  watching?: Watching;
  /** Who looks at this page; left out for the owner of the machine. */
  you?: Who;
  /** The station is private: there is nothing else to see of it. */
  private?: boolean;
}

/** Somebody, as the server knows them. */
export interface Who {
  name: string;
  id?: string;
  role?: 'owner' | 'instructor' | 'student' | 'viewer';
}

/** A moment that somebody marked. */
export interface Marked {
  /** Of the command; the remark that is kept has the same key. */
  id: string;
  by: Who;
  at: string;
  /** Of the stream, s. */
  time: number;
  /** The turn angle; null between legs. */
  turn: number | null;
  words: string;
}

/** A command that was carried out at the station. */
export interface Acted {
  id: string;
  command: string;
  by: Who;
  at: string;
  /** What was chosen. */
  choice?: Choice;
  /** Who was named. */
  student?: string;
}

/** The built-in aircraft flies for the pilot, at a station of its own: shown. */
export interface Handover {
  by: Who;
  shown: string;
  choice: Choice;
}

/** Who else watches the station: those with a name, and how many have none. */
export interface Watching {
  watchers: Who[] | null;
  nameless: number;
}

interface Head<T extends string> {
  type: T;
  station: string;
  /** The number of the event, from 1, per station. Frames have none. */
  seq?: number;
}

export type HelloMessage = Head<'hello'> & Hello;
export type StationMessage = Head<'station'> & Station;
export type PlanMessage = Head<'plan'> & Plan;
export type FrameMessage = Head<'frame'> & Frame;
export type SetupMessage = Head<'setup'> & Setup;
export type PhaseMessage = Head<'phase'> & Phase;
export type CalloutMessage = Head<'callout'> & Callout;
export type LegMessage = Head<'leg'> & Leg;
export type SeriesMessage = Head<'series'> & Series;
export type SessionMessage = Head<'session'> & LiveSession;

export type MarkMessage = Head<'mark'> & Marked;
export type ActedMessage = Head<'acted'> & Acted;
export type HoleMessage = Head<'hole'> & Hole;
export type HandoverMessage = Head<'handover'> & Handover;
export type WatchingMessage = Head<'watching'> & Watching;

/** Asked for by a button box. */
export type ActMessage = Head<'act'> & { act: 'mute' };

/** What changed at all stations since the wall before; Run and mark are repeated by a viewer that comes back. */
export interface Wall {
  run: string;
  mark: number;
  /** Of the server, ms since 1970. */
  time: number;
  /** All stations, in the order they came; null as before. */
  names: string[] | null;
  sheets: WallSheet[];
}

/** What changed at one station; what is left out is as before. */
export interface WallSheet {
  name: string;
  plan?: WallSheetPlan;
  info?: WallSheetInfo;
  last?: WallSheetLeg;
  stage?: WallSheetStage;
  /** In place of the trace before: a turn has begun, or some was missed. */
  trace?: WallPoint[];
  /** What was not sent before, oldest first. */
  said?: Callout[];
  /** While a leg is shown as it is flown. */
  now?: { turn: number; lanes: WallLanes };
  /** The latest half seconds: the share of the data that came, 9 for all, - where nobody looked. */
  ticks?: string;
  /** Its pilot shares the station with nobody: there is nothing else. */
  private?: boolean;
}

/** Bank, nose, speed and height. */
export type WallLanes = [number | null, number | null, number | null, number | null];

/** The turn angle, then as in WallLanes. */
export type WallPoint = [number | null, number | null, number | null, number | null, number | null];

export interface WallSheetInfo {
  student: string;
  link: StationLink;
  /** When the link became that, ms since 1970 by the server’s clock. */
  since: number;
  rate: number;
  advice: Phrase;
  /** As in Station. */
  trouble?: Phrase;
  recording: Station['recording'];
  session: string;
  auto: boolean;
  /** Seconds of the recording that are still to come from a station at home; none where it is left out. */
  behind?: number;
}

export interface WallSheetPlan {
  maneuver: string;
  title: string;
  turn: number;
  legs: number;
  posts: { turn: number; label: string }[];
  lanes: {
    channel: LaneChannel;
    unit: string;
    low: number;
    high: number;
    /** Turn, low and high. */
    corridor: [number, number, number][];
  }[];
}

export interface WallSheetStage {
  state: FlightState;
  direction: Direction;
  phase: string;
  ready: boolean;
  unclear: boolean;
  awaited: boolean;
  /** The gate of the set-up that is shut, '' when none is. */
  holds: string;
  gate: Phrase;
}

export interface WallSheetLeg {
  number: number;
  direction: Direction;
  outcome: Outcome;
  verdict: Verdict;
  score: number;
  headline: Phrase;
  posts: Post[] | null;
}

export type WallMessage = Head<'wall'> & Wall;

export type Message =
  | HelloMessage | StationMessage | PlanMessage | FrameMessage | SetupMessage
  | PhaseMessage | CalloutMessage | LegMessage | SeriesMessage | SessionMessage | ActMessage
  | MarkMessage | ActedMessage | HoleMessage | HandoverMessage | WatchingMessage | WallMessage;

export interface Card {
  name: string;
  title: string;
  summary?: string;
}

/** GET /api/cards */
export interface Cards {
  maneuvers: Card[] | null;
  /** In place of a maneuver: found from what is flown. */
  auto: Card;
  standards: Card[] | null;
  aircraft: AircraftCard[] | null;
}

/** Speeds are kt; 0 is not known. */
export interface AircraftCard extends Card {
  entry: number;
  /** The lowest of a good wing-over. */
  apex: number;
  stall: number;
}

/** GET /api/stations */
export interface StationList {
  version: number;
  server: string;
  listen: string[];
  refused?: Refused;
  lost?: Lost;
  /** What is given up now because more arrives than the machine can do; the most important last. */
  lacking?: Phrase[];
  stations: Station[];
}

/** A sender that is refused: as many are followed as max-stations in the configuration allows. */
export interface Refused {
  address: string;
  senders: number;
}

/** Datagrams that the system dropped before the server could read them, since it started. */
export interface Lost {
  datagrams: number;
  /** RFC 3339. */
  last: string;
}

/** Where datagrams are missing because the machine that received them could not keep them. */
export interface Hole {
  /** Of the stream, s. */
  time: number;
  /** Of this station. */
  own: number;
  /** Of all stations at the same socket. */
  shared: number;
  words: Phrase;
}

/** How much is said in flight: as the standard has it, every cue, fading as points are met, or nothing but safety. */
export type Prompts = 'card' | 'all' | 'fade' | 'off';

/** POST /api/stations/{name}/prompts; answered with the same. */
export interface PromptsChoice {
  prompts: Prompts;
}

/** POST /api/stations/{name}/choose */
export interface Choice {
  maneuver: string;
  /** "" is the server\'s own. */
  standard: string;
  aircraft: string;
}

/** POST /api/stations/{name}/line; answered with {}. */
export type LineChoice =
  | {
      /** null is the heading of now. */
      heading: number | null;
      /** Of the reference point; "" is the side of the turn. */
      side: Direction;
      /** NM to the reference point; null is the usual distance. */
      distance: number | null;
    }
  | { clear: true };

/** One number of a brief. Value is null when the cards don't give it, and where they give words in its place. */
export interface BriefNumber {
  id: string;
  label: Phrase;
  value: number | null;
  unit: string;
  /** After the decimal point. */
  digits: number;
  /** In the turn; '' where it is the same all the way. */
  where: Phrase;
  /** Of the aircraft card. */
  words: string;
  /** The band within which it is met; null is an open end. */
  met: [number | null, number | null];
}

/** The reference path at a turn angle: no wind, feet from the entry. */
export interface BriefPoint {
  turn: number;
  time: number;
  along: number;
  across: number;
  height: number;
  airspeed: number;
  bank: number;
  /** Above the pitch of level flight. */
  pitch: number;
  load: number;
  /** Height and true airspeed together, ft since the entry. */
  energy: number;
  stall: number | null;
}

/** An error to expect. */
export interface BriefError {
  id: string;
  title: Phrase;
  seen: string;
  advice: Phrase;
}

/** GET /api/brief?maneuver=NAME&standard=NAME&aircraft=NAME */
export interface BriefSheet {
  version: number;
  maneuver: Card;
  /** name "" is the maneuver card's own. */
  standard: Card;
  /** null when none is chosen. */
  aircraft: Card | null;
  /** Checkpoints with words and wants, lanes with corridors, cautions. */
  plan: Plan;
  numbers: BriefNumber[];
  /** Every whole degree; null when there is none. */
  path: BriefPoint[] | null;
  /** Why there is no path; "" when there is one or none is needed. */
  problem: Phrase;
  /** What else is to be known. */
  notes?: Phrase[] | null;
  gates: Gate[];
  errors: BriefError[];
  /** The card's own list of usual errors. */
  usual: string[];
  said: { turn: number; label: string; words: Phrase }[];
  cautions: string[];
  sources: string[];
}

/** What the server says to people: by a code, or as plain words where there is none. */
export type Phrase = string | CodedPhrase;

export interface CodedPhrase {
  /** The sentence of static/text/en.js. */
  code: string;
  args?: Record<string, PhraseArg>;
  /** The sentence in English. */
  text: string;
}

/**
 * Words that are the same in every language, phrases that are joined by commas or as in "a, b and c", or a number;
 * digits is −1 for as many as it takes.
 */
export type PhraseArg = string | Phrase[] | { and: Phrase[] } | { value: number; unit?: string; digits?: number };
