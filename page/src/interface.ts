// What the page and its server say to each other. Written from desk/interface/ by tools/page_types.py.

/**
 * One thing wrong with the text; line and column count from one.
 */
export interface Fault {
  line: number;
  column: number;
  message: string;
}

/**
 * A hold, a take-up or an end on a line.
 *
 * `id` is the line's name, a slash and its own name. `stays` says why it cannot be moved; empty where it can.
 * `placed_by` is a rule's name, or "by hand"; moving what a rule placed first writes the rule's places into the text.
 */
export interface Place {
  id: string;
  name: string;
  line: string;
  what: "hold" | "takeup" | "end";
  kind: string;
  station_m: number;
  from_m: number;
  to_m: number;
  placed_by: string;
  stays: string;
}

/**
 * A named place of a route.
 */
export interface Corner {
  name: string;
  station_m: number;
}

/**
 * A line as the page needs it to move things along it.
 */
export interface LineOutline {
  name: string;
  about: string;
  length_m: number;
  corners: Corner[];
  places: Place[];
}

/**
 * A state of the walk, in order; pressure and temperature are those of its hottest zone.
 */
export interface StateRow {
  name: string;
  pressure_bar: number;
  temperature_c: number;
  content: string;
}

/**
 * Something that can be put on a line. `needs` names what the user must first say, and between what to choose.
 */
export interface Palette {
  key: string;
  what: "hold" | "takeup";
  title: string;
  about: string;
  slides_on: string[];
}

/**
 * The opened file as it stands on the desk.
 *
 * `revision` grows by one with every change. `undo` and `redo` say in words what they would do; "" where there is
 * nothing. `outside`: whether the file on disk still is what was last read or saved. `recovered`: what was taken over
 * from an earlier desk that ended without saving; "" where nothing was. `readable`: no fault, so that there is
 * something to look at; the outline is that of the last readable revision, `outline_revision` (0: of none yet).
 * `busy`: what must be worked out first, such as which joint of a series fits; "" where nothing has to.
 */
export interface Document {
  revision: number;
  file: string;
  project: string;
  text: string;
  saved: boolean;
  undo: string;
  redo: string;
  outside: "same" | "changed" | "gone";
  recovered: string;
  readable: boolean;
  outline_revision: number;
  busy: string;
  faults: Fault[];
  lines: LineOutline[];
  states: StateRow[];
  palette: Palette[];
}

/**
 * A change asked for. `do` decides what else is read.
 *
 * text: `text`. move: `id`, `station_m`. add: `key` of the palette, `line`, `station_m`, and `slides_on` where the
 * palette asks for it. remove: `id`. undo, redo: nothing. outside: take the file as it is on disk now.
 */
export interface Change {
  do?: "text" | "move" | "add" | "remove" | "undo" | "redo" | "outside";
  text?: string;
  id?: string;
  station_m?: number;
  key?: string;
  line?: string;
  slides_on?: string;
}

/**
 * A change, and the revision that it was made on; another one is refused with 409 and the document as it is.
 */
export interface ChangeAsked {
  revision: number;
  change: Change;
}

/**
 * Why something was not done; the document as it stands where that helps.
 */
export interface Refused {
  refused: string;
  document: Document | null;
}

export type ViewName = "plan" | "section" | "scene";

export type Scenario = "no friction" | "high friction";

/**
 * A state made by hand: from installed to this pressure and temperature in every zone, contents as in operation.
 */
export interface ByHand {
  pressure_bar: number;
  temperature_c: number;
}

/**
 * Something picked up and not yet put down.
 */
export interface Moved {
  id: string;
  station_m: number;
}

/**
 * What the page wants to see: a step of the walk, or a state by hand; drawn `exaggeration` times.
 *
 * `number` comes back with the answer; `revision` is that of the outline looked at. `exaggeration` 0 lets the server
 * choose. `scene`: the file name of a scene's line instead of the document; "" for the document.
 */
export interface LookAsked {
  number: number;
  revision: number;
  scene: string;
  step: number | null;
  by_hand: ByHand | null;
  scenario: Scenario;
  moved: Moved | null;
  exaggeration: number;
}

/**
 * A hold in the state looked at. `use` is null where no capacity is given; `contact`: "bears", "free", or "".
 */
export interface HoldLook {
  id: string;
  force_kn: number;
  along_kn: number;
  moment_knm: number;
  capacity_kn: number | null;
  use: number | null;
  contact: string;
  words: string;
}

/**
 * One rod of a joint in the state looked at; `gap_mm` is how far its nuts stand off where it is slack.
 *
 * `use` is its tension over what one rod can carry, null where nobody said what that is; `words` says all of it.
 */
export interface RodLook {
  name: string;
  tension_kn: number;
  engaged: boolean;
  gap_mm: number;
  capacity_kn: number | null;
  use: number | null;
  words: string;
}

/**
 * Plates, swing bars or ties of a joint, all of a sort together, in the state looked at.
 *
 * `force_kn` is what the checks ask of them: of plates and bars twice what the more loaded one bears, of ties their
 * pull, below nought where they are pushed.
 */
export interface HardwareLook {
  name: string;
  force_kn: number;
  capacity_kn: number | null;
  use: number | null;
  words: string;
}

/**
 * A joint in the state looked at; `use` adds its movements over what they may be, as the check does.
 */
export interface TakeupLook {
  id: string;
  axial_mm: number;
  lateral_mm: number;
  angular_deg: number;
  length_mm: number;
  use: number | null;
  words: string;
  rods: RodLook[];
  hardware: HardwareLook[];
}

/**
 * What moves over a view: SVG content in the view's own coordinates [mm of the sheet].
 *
 * The view "scene" is that of a scene's line, drawn as scenes are: nothing in it stands still.
 */
export interface Overlay {
  line: string;
  view: ViewName;
  svg: string;
}

/**
 * Movements of a line's nodes, not exaggerated, x y z of one after the other [m]: for the turning view.
 */
export interface LineMovement {
  line: string;
  movement_m: number[];
}

/**
 * The line as asked for. `trouble` says why there is no answer, and then the lists are empty; else it is "".
 */
export interface Look {
  number: number;
  revision: number;
  words: string;
  pressure_bar: number;
  temperature_c: number;
  exaggeration: number;
  trouble: string;
  holds: HoldLook[];
  takeups: TakeupLook[];
  overlays: Overlay[];
  movements: LineMovement[];
  server_ms: number;
}

/**
 * A step of the walk. `arrived`: the state itself, not the way to it.
 */
export interface WalkStep {
  step: number;
  state: string;
  arrived: boolean;
  pressure_bar: number;
  temperature_c: number;
}

/**
 * Something that changes on the way.
 */
export interface WalkEvent {
  step: number;
  id: string;
  what: string;
  words: string;
}

/**
 * The track of states: every step, and what happens on the way.
 */
export interface Walk {
  revision: number;
  scenario: Scenario;
  trouble: string;
  steps: WalkStep[];
  events: WalkEvent[];
}

/**
 * Where a place is drawn in a view [mm of the sheet].
 */
export interface Handle {
  id: string;
  x: number;
  y: number;
}

/**
 * A station and where it is drawn, so that the pointer finds the station nearest to it.
 */
export interface TrackPoint {
  station_m: number;
  x: number;
  y: number;
}

/**
 * One drawing of one line: SVG, and how stations lie in it. `title` is for those who cannot see it.
 */
export interface View {
  line: string;
  view: ViewName;
  title: string;
  svg: string;
  width: number;
  height: number;
  handles: Handle[];
  track: TrackPoint[];
}

/**
 * Every line in plan and along its route.
 */
export interface Views {
  revision: number;
  views: View[];
}

/**
 * A closed solid of the turning view. Arrays are base64 of little-endian float32 and uint32.
 *
 * `position`: x y z of each vertex [m]. `index`: triangles. `node`, `share`: the vertex moves with node and node + 1
 * of its line, with 1 - share and share; both empty where it stands still.
 */
export interface Part {
  id: string;
  line: string;
  what: "pipe" | "bellows" | "joint" | "hold" | "rod";
  tone: string;
  position: string;
  index: string;
  node: string;
  share: string;
}

/**
 * The lines in space, as they lie; `thick` is how many times as thick as they are all things are drawn.
 */
export interface Solids {
  revision: number;
  thick: number;
  low_m: number[];
  high_m: number[];
  parts: Part[];
}

export type Outcome = "passes" | "close" | "fails" | "not covered" | "no limit given" | "not computed yet";

export type Topic = "document" | "study" | "proposals" | "papers" | "outside";

export type Job = "none" | "running" | "done" | "failed" | "stopped";

/**
 * The check nearest to its limit at a place, over all states, of the whole study.
 */
export interface PlaceUse {
  id: string;
  use: number | null;
  outcome: Outcome;
  rule: string;
  state: string;
  words: string;
}

/**
 * The whole study, run behind: for which revision, how far, and its verdict.
 */
export interface StudyNews {
  revision: number;
  job: Job;
  words: string;
  verdict: string;
  because: string[];
  places: PlaceUse[];
  took_s: number;
}

/**
 * A cell of a table; `use` colours it.
 */
export interface Cell {
  text: string;
  use: number | null;
}

/**
 * A table with its head and what it says in a sentence.
 */
export interface Table {
  title: string;
  about: string;
  head: string[];
  rows: Cell[][];
}

/**
 * Everything about one place: loads by state, hand beside model, checks, what would change it.
 *
 * `waiting`: parts that come with the whole study, which still runs.
 */
export interface Why {
  revision: number;
  id: string;
  title: string;
  says: string[];
  tables: Table[];
  waiting: string;
}

/**
 * A proposal in the comparison.
 */
export interface ProposalRow {
  number: number;
  key: string;
  title: string;
  cost: string;
  anchor_load: string;
  joints: number;
  verdict: string;
  reasons: string[];
  svg: string;
}

/**
 * Something that was not taken, where, and its first failing check.
 */
export interface RefusedConcept {
  where: string;
  concept: string;
  because: string;
}

/**
 * What was found for a revision, best first; `words` says what is going on or why nothing fits.
 */
export interface Proposals {
  revision: number;
  job: Job;
  words: string;
  share: number;
  rows: ProposalRow[];
  refused: RefusedConcept[];
}

/**
 * Which proposals are wanted.
 */
export interface ArrangeAsked {
  best: number;
  measure: "cost" | "anchor-load" | "joints";
}

/**
 * Which proposal is taken over: by its number, and its `key`, since a search that goes on may put another there.
 *
 * `revision` is that of the text that the page shows.
 */
export interface TakeAsked {
  revision: number;
  number: number;
  key: string;
}

/**
 * A file that was made; `address` is where the page finds it.
 */
export interface PaperFile {
  name: string;
  title: string;
  size_kb: number;
  address: string;
}

/**
 * A paper that can be asked for.
 */
export interface PaperKind {
  key: string;
  title: string;
  about: string;
}

/**
 * What was made, from which revision, and what can be.
 */
export interface Papers {
  revision: number;
  job: Job;
  words: string;
  kinds: PaperKind[];
  files: PaperFile[];
}

/**
 * Which papers are wanted, and how.
 */
export interface PapersAsked {
  only: string[];
  units: "si" | "us";
  language: "en" | "de";
}

/**
 * One of the nine scenes.
 */
export interface SceneRow {
  name: string;
  number: number;
  title: string;
}

/**
 * A claim with the model's number and the hand's.
 */
export interface SceneClaim {
  text: string;
  model: string;
  hand: string;
  formula: string;
  source: string;
  agrees: boolean;
}

/**
 * One step of a scene, with its picture.
 */
export interface SceneStep {
  title: string;
  words: string;
  svg: string;
}

/**
 * A line of the scene that can be played by hand: looks are asked with its file name as `scene`.
 */
export interface SceneFile {
  file: string;
  title: string;
  highest_bar: number;
  highest_c: number;
  lowest_c: number;
  outline: LineOutline;
  views: View[];
  solids: Solids;
}

/**
 * A scene, played. `signs` is a drawing of what the signs of its pictures mean.
 */
export interface SceneTold {
  name: string;
  title: string;
  lead: string[];
  steps: SceneStep[];
  signs: string;
  claims: SceneClaim[];
  leaves_out: string[];
  files: SceneFile[];
}

/**
 * One message of the stream of news (`/api/news`): what has changed, so that the page asks for it.
 */
export interface News {
  what: Topic;
  revision: number;
}
