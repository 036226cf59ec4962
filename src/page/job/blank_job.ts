import { changedText, compared, roomOf } from '../engine/commands';
import { k_own_layout } from '../engine/results';
import { engine } from './job_desk';
import { layoutChanges } from './layout_changes';

/** What is asked for a new room. All lengths as they are typed: the engine reads them. */
export interface BlankRoom {
  readonly units: 'imperial' | 'metric';
  readonly shape: 'rectangle' | 'L';
  readonly name: string;
  readonly width: string;
  readonly depth: string;
  readonly ceiling: string;
  /** Of an L, from its southwest corner: how deep its east end is, how wide its north end. */
  readonly eastDepth: string;
  readonly northWidth: string;
}

const k_can = {
  imperial: `[can_types.six_inch]
beam = { lumens = 900, angle = 60 }   # a made beam: give the can's photometric file instead when you have it
light_loss = 0.9
watts = 11
hole = "6-3/8in"
opening = { diameter = "5in" }`,
  metric: `[can_types.downlight]
beam = { lumens = 750, angle = 60 }   # a made beam: give the can's photometric file instead when you have it
light_loss = 0.9
watts = 8
hole = "76 mm"
opening = { diameter = "60 mm" }`,
} as const;

const k_target = { imperial: '20 fc', metric: '200 lx' } as const;
const k_type = { imperial: 'six_inch', metric: 'downlight' } as const;
const k_count = 4;

/** A text in TOML, for which JSON's escapes serve. */
const quoted = (typed: string): string => JSON.stringify(typed);

function plan({ shape, width, depth, eastDepth, northWidth }: BlankRoom): string {
  const [w, d, ed, nw] = [width, depth, eastDepth, northWidth].map(quoted);
  if (shape === 'rectangle') return `width = ${w}    # west to east\ndepth = ${d}    # south to north`;
  return `corners = [["0in", "0in"], [${w}, "0in"], [${w}, ${ed}], [${nw}, ${ed}], [${nw}, ${d}], ["0in", ${d}]]
walls = ["south", "east", "inner north", "inner east", "north", "west"]`;
}

const text = (room: BlankRoom): string => `units = "${room.units}"
target = "${k_target[room.units]}"      # average light that the work plane should get

[room]
name = ${quoted(room.name)}
${plan(room)}
ceiling = ${quoted(room.ceiling)}

[finishes]
floor = "20 %"
ceiling = "80 %"
walls = "50 %"

${k_can[room.units]}

[[cans]]
type = "${k_type[room.units]}"
from = { west = "1ft", south = "1ft" }
`;

/**
 * The text of a job for a new room, four cans in it as the engine spreads them over it.
 *
 * @throws Refused what the engine says of the lengths
 */
export async function blankJobText(asked: BlankRoom): Promise<string> {
  const job = { text: text(asked), files: {} };
  const room = await roomOf(engine, job);
  const { layouts } = await compared(engine, job, [k_count]);
  const own = layouts.find(({ name }) => name === k_own_layout);
  const spread = layouts.find(({ name, cans }) => name !== k_own_layout && cans === k_count);
  return own && spread ? changedText(engine, job, layoutChanges(room, own, spread)) : job.text;
}
