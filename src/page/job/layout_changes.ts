import type { Change } from '../engine/commands';
import type { Can, Layout, Place, Room } from '../engine/results';

const k_same_place_m = 1e-3;

const isAt = (can: Can, place: Place): boolean => Math.hypot(can.x_m - place.x_m, can.y_m - place.y_m) < k_same_place_m;

/** The cans of the job that a comparison laid out anew, as indices. */
function laidOut(cans: readonly Can[], own: readonly Place[]): readonly number[] {
  const left = new Set(cans.keys());
  const found: number[] = [];
  for (const place of own) {
    for (const index of left) {
      const can = cans[index];
      if (!can || !isAt(can, place)) continue;
      found.push(index);
      left.delete(index);
      break;
    }
  }
  return found;
}

/** The cans of the job that stay where they are in every layout of a comparison. */
export function stayingCans({ cans }: Room, own: Layout): readonly Can[] {
  const moving = new Set(laidOut(cans, own.positions));
  return cans.filter((_, index) => !moving.has(index));
}

interface Wall {
  readonly name: string;
  /** How far a place is in front of it. */
  readonly distance_m: (place: Place) => number;
  readonly along: readonly [number, number];
}

/** The walls that have all of the room in front of them, so that every place can be taped from them. */
function outerWalls({ room: { corners } }: Room): readonly Wall[] {
  const next = (i: number): Place => corners[(i + 1) % corners.length] ?? { x_m: 0, y_m: 0 };
  const turn = corners.reduce((sum, at, i) => sum + at.x_m * next(i).y_m - next(i).x_m * at.y_m, 0);
  const walls = corners.map((at, i): Wall => {
    const [dx, dy] = [next(i).x_m - at.x_m, next(i).y_m - at.y_m];
    const length = Math.hypot(dx, dy) * Math.sign(turn);
    const distance_m = ({ x_m, y_m }: Place): number => (dx * (y_m - at.y_m) - dy * (x_m - at.x_m)) / length;
    return { name: at.wall_from_here, distance_m, along: [dx / length, dy / length] };
  });
  return walls.filter((wall) => corners.every((corner) => wall.distance_m(corner) > -k_same_place_m));
}

/**
 * What a can is to be taped from before it moves far: where it is taped from a wall that has only a part of the room in front,
 * the place may be behind that wall. The move that follows rounds it as a tape reads.
 */
function newTaping(room: Room, can: Can, place: Place): Readonly<Record<string, string>> | null {
  const outer = outerWalls(room);
  if (can.from.every(({ wall }) => outer.some(({ name }) => name === wall))) return null;
  const [first] = outer;
  if (!first) return null;
  const across = ({ along: [dx, dy] }: Wall): number => Math.abs(first.along[0] * dy - first.along[1] * dx);
  const second = outer.reduce((best, wall) => (across(wall) > across(best) ? wall : best), first);
  if (second === first) return null;
  return Object.fromEntries([first, second].map((wall) => [wall.name, `${wall.distance_m(place).toFixed(4)} m`]));
}

/**
 * The changes that give a job another layout: its cans move, so that they keep what else is written of them; what is missing
 * is added like the first of them, what is too many goes.
 *
 * @param room of the job that the layout was made for
 * @param own the job's own layout in the same comparison
 */
export function layoutChanges(room: Room, own: Layout, layout: Layout): readonly Change[] {
  const before = laidOut(room.cans, own.positions);
  const first = room.cans[before[0] ?? -1];
  if (!first) return [];
  const to_m = ({ x_m, y_m }: Place): [number, number] => [x_m, y_m];
  const like = {
    type: layout.type,
    from: Object.fromEntries(first.from.map(({ wall, text }) => [wall, text])),
    ...(first.circuit === null ? {} : { circuit: first.circuit }),
    ...(first.level === 1 ? {} : { level: first.level }),
    ...(first.aim === null ? {} : { aim: { tilt: first.aim.tilt_deg, toward: first.aim.toward_deg } }),
  };
  const moved = (index: number, can: Can, place: Place): readonly Change[] => {
    const from = newTaping(room, can, place);
    const move: Change = { move: ['cans', index], to_m: to_m(place) };
    return from ? [{ set: ['cans', index, 'from'], value: from }, move] : [move];
  };
  return [
    ...layout.positions.flatMap((place, i): readonly Change[] => {
      const index = before[i];
      if (index !== undefined) return moved(index, room.cans[index] ?? first, place);
      return [{ add: ['cans'], value: like }, ...moved(room.cans.length + i - before.length, first, place)];
    }),
    ...before
      .slice(layout.positions.length)
      .sort((a, b) => b - a)
      .map((index): Change => ({ remove: ['cans', index] })),
  ];
}
