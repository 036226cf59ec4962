// What the program's JSON files hold, as far as the page uses it. Lengths are metres on the plan, x east, y north.

export type Point = readonly [number, number];

export interface Place {
  readonly x_m: number;
  readonly y_m: number;
}

/** A distance from a wall, as it is taped. */
export interface Taped {
  readonly wall: string;
  readonly text: string;
  readonly distance_m: number;
}

/** What the engine remarks on a file. */
export interface Remark {
  readonly file: string;
  readonly line: number;
  readonly what: string;
  readonly hint: string;
}

export interface CanType {
  readonly name: string;
  readonly file: string | null;
  readonly lumens: number;
  readonly watts: number | null;
  readonly price: number | null;
  readonly hole_m: number | null;
  readonly hole: string | null;
  readonly about: string;
}

export interface Can extends Place {
  readonly number: number;
  readonly type: string;
  readonly from: readonly Taped[];
  readonly height_m: number;
  readonly hangs: boolean;
  readonly level: number;
  readonly circuit: string | null;
  readonly aim: { readonly tilt_deg: number; readonly toward_deg: number } | null;
  /** null: it needs no hole, or nothing is known of the ceiling. */
  readonly fits: boolean | null;
  readonly hits: readonly string[];
}

export interface Outlined {
  readonly number: number;
  readonly name: string;
  readonly outline: readonly Point[];
}

export interface Obstruction extends Outlined {
  readonly from: readonly Taped[];
  readonly width: string;
  readonly depth: string;
  readonly bottom: string;
  readonly top: string;
  readonly reflectance: number;
  readonly turn_deg: number;
}

export interface Standing extends Place {
  readonly number: number;
  readonly name: string;
}

export interface Circuit {
  /** null: the cans that are on no circuit. */
  readonly name: string | null;
  readonly cans: readonly number[];
  readonly dimmed: boolean;
  /** Fraction of full light at settings of 0, 1, ... 100 %. */
  readonly light_of_setting: readonly number[];
}

/** `evenlit room --json` */
export interface Room {
  readonly units: 'imperial' | 'metric';
  /** Printed before prices. */
  readonly currency: string;
  readonly room: {
    readonly name: string;
    readonly kind: 'rectangle' | 'corners' | 'measured';
    readonly corners: readonly (Place & { readonly wall_from_here: string })[];
    readonly width: string | null;
    readonly depth: string | null;
    readonly ceiling: string | null;
    readonly ceiling_m: number | null;
    readonly lowest_ceiling_m: number;
    readonly floor_area_m2: number;
    readonly floor_area: string;
  };
  readonly target: { readonly lx: number; readonly text: string } | null;
  readonly work_plane: { readonly height_m: number; readonly height: string };
  readonly finishes: readonly { readonly name: string; readonly reflectance: number; readonly text: string }[];
  readonly can_types: readonly CanType[];
  readonly cans: readonly Can[];
  /** Joists, or anything else in the ceiling or above it, is in the job. */
  readonly is_ceiling_known: boolean;
  readonly framing: readonly { readonly name: string; readonly outline: readonly Point[] }[];
  readonly keep_outs: readonly (Outlined & { readonly clearance: string })[];
  readonly fans: readonly (Standing & { readonly diameter_m: number })[];
  readonly obstructions: readonly Obstruction[];
  readonly wall_areas: readonly {
    readonly number: number;
    readonly name: string;
    readonly kind: string;
    readonly wall: string;
    readonly line: readonly [Point, Point];
    readonly bottom: string;
    readonly top: string;
  }[];
  readonly task_areas: readonly (Outlined & { readonly height: string })[];
  readonly seats: readonly (Standing & { readonly toward_deg: number })[];
  readonly points: readonly Standing[];
  readonly views: readonly (Standing & { readonly toward_deg: number })[];
  readonly switches: readonly (Standing & { readonly circuits: readonly string[] })[];
  readonly circuits: readonly Circuit[];
  readonly moods: readonly { readonly name: string; readonly levels: Readonly<Record<string, number>> | null }[];
  readonly warnings: readonly Remark[];
}

/** `evenlit light --json` */
export interface Light {
  readonly results: {
    readonly target_lx: number | null;
    readonly average_lx: number;
    readonly average_error_lx: number;
    readonly minimum_lx: number;
    readonly minimum_at: Place;
    readonly maximum_lx: number;
    readonly maximum_at: Place;
    readonly uniformity_minimum_over_average: number;
    readonly verdict: string;
  };
  readonly power: { readonly power_w: number; readonly power_density_w_m2: number };
  readonly warnings: readonly Remark[];
  readonly grid: {
    readonly x_m: readonly number[];
    readonly y_m: readonly number[];
    readonly illuminance_lx: readonly number[];
    readonly error_lx: readonly number[];
    readonly spacing_x_m: number;
    readonly spacing_y_m: number;
  };
  readonly task_areas?: readonly { readonly name: string; readonly average_lx: number }[];
  readonly scale: readonly { readonly lx: number; readonly colour: string }[];
}

/** `evenlit holes --can --near --json` */
export interface PlacedCan {
  readonly wished: Place;
  readonly fits_there: boolean;
  readonly hits: readonly string[];
  readonly place: Place | null;
  readonly in_line: readonly { readonly with: readonly number[]; readonly line: readonly [Point, Point] }[];
  readonly text: string;
}

export interface Want {
  readonly of:
    | 'average_lx'
    | 'minimum_lx'
    | 'uniformity_minimum_over_average'
    | 'power_w'
    | 'cost'
    | 'task_area_average_lx';
  readonly task_area: string | null;
  readonly wanted: number;
  readonly has: number;
  readonly has_error: number;
  readonly is_met: boolean;
}

/**
 * A row of `evenlit compare --json` or `evenlit search --json`. The job's own is named `k_own_layout`; `positions` are those
 * of the cans that are laid out, in the job's order; all other cans of the job stay where they are.
 */
export interface Layout {
  readonly name: string;
  readonly type: string;
  readonly cans: number;
  readonly average_lx: number;
  readonly average_error_lx: number;
  readonly minimum_lx: number;
  readonly minimum_error_lx: number;
  readonly uniformity_minimum_over_average: number;
  readonly power_w: number | null;
  readonly cost: number | null;
  /** null: nothing is known of the ceiling, or no can needs a hole. */
  readonly misfits: number | null;
  readonly wants: readonly Want[];
  readonly gives_all_wanted: boolean;
  readonly positions: readonly Place[];
}

/** What the engine calls the job's own layout. */
export const k_own_layout = 'as in the job';

/** Whose layout is compared whatever numbers of cans were asked for. */
export interface RuleOfThumb {
  /** The rule and its figures for this room, a sentence. */
  readonly reckoning: string;
  /** null: it has none. */
  readonly layout: string | null;
}

export interface Comparison {
  readonly rules_of_thumb: readonly RuleOfThumb[];
  readonly target_lx: number | null;
  readonly layouts: readonly Layout[];
  readonly fewest_cans_at_target: number | null;
  readonly counts_without_layout: readonly number[];
  /** Layouts of which a can would be inside of something. */
  readonly left_out: readonly string[];
}

export interface Search {
  readonly layouts: readonly Layout[];
  /** Its number in `layouts`, counted from 1. */
  readonly cheapest_layout: number | null;
  readonly layouts_looked_at: number;
  readonly is_whole: boolean;
}

/** `evenlit compare BEFORE.toml AFTER.toml --json`: all cans of each. */
export interface JobComparison {
  readonly jobs: readonly Layout[];
}

/** `evenlit photometry --json` */
export interface Photometry {
  readonly light: {
    readonly luminaire_lm: number;
    readonly power_w: number | null;
    readonly along_c0: { readonly beam_deg: number | null };
  };
  readonly warnings: readonly Remark[];
}

/** What a mood is to give, and what it gives: light, or how many times that of another area. */
export interface Wish {
  /** A task area; null: the work plane. */
  readonly area: string | null;
  /** Of a ratio: to what. */
  readonly to: string | null;
  readonly wish: 'at_least_lx' | 'at_most_lx' | 'about_lx' | 'ratio';
  readonly wanted: number;
  /** null: there is nothing at all to compare with. */
  readonly has: number | null;
  /** Below 0: too little. null: beyond all bounds. */
  readonly off_by_fraction: number | null;
}

/** `evenlit moods --json` */
export interface Moods {
  readonly moods: readonly {
    readonly name: string;
    readonly circuits: readonly {
      readonly name: string;
      readonly setting: number | null;
      readonly light_fraction: number;
      readonly perceived_fraction: number;
    }[];
    readonly can_levels: readonly number[];
    readonly wishes: readonly Wish[];
    readonly average_lx: number;
    readonly minimum_lx: number;
    readonly power_w: number;
    readonly cost_a_year: number | null;
    readonly task_areas: readonly { readonly name: string; readonly average_lx: { readonly value: number } }[];
  }[];
  readonly warnings: readonly Remark[];
}
