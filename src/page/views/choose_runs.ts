// What runs for the view "Choose" and what it found; it stays when other views are shown.

import { signal } from '@preact/signals';
import {
  type Change,
  changedText,
  compared,
  comparedToEarlier,
  floorPicture,
  type JobFiles,
  Refused,
  roomOf,
  searched,
} from '../engine/commands';
import { Stopped } from '../engine/engine';
import { type Can, type Comparison, k_own_layout, type Layout, type Room, type RuleOfThumb, type Search } from '../engine/results';
import { before, k_befores, noteBeforeLayout, textBefore } from '../job/earlier';
import { change, jobNow, light, patientEngine } from '../job/job_desk';
import { layoutChanges, stayingCans } from '../job/layout_changes';

/** A layout to choose, and its light as far as it is drawn. */
export interface Card {
  readonly layout: Layout;
  readonly room: Room;
  /** The cans that are not laid out, and stay. */
  readonly staying: readonly Can[];
  /** The job with this layout is the text `from` with these changes. */
  readonly from: string;
  readonly changes: readonly Change[];
  readonly isOwn: boolean;
  /** Why it stands out, in words. */
  readonly mark: string;
  /** So many cans were asked for, or the job has them. */
  readonly isAsked: boolean;
  /** Why it is here though nobody asked for so many cans. */
  readonly reason: string;
  readonly floor: Blob | null;
  /** What the engine says against it. */
  readonly refusal: string;
}

/** What a run found. */
export interface Found {
  /** The job's text when it began. */
  readonly text: string;
  readonly units: Room['units'];
  readonly cards: readonly Card[];
  readonly remark: string;
  /** Where the colours of all maps end; null: of each where it suits it. */
  readonly top_lx: number | null;
}

export type Run = 'compare' | 'search' | 'earlier';

export const found = {
  compare: signal<Found | null>(null),
  search: signal<Found | null>(null),
  earlier: signal<Found | null>(null),
} as const satisfies Record<Run, unknown>;

/** What runs now, and how far it is. */
export const running = signal<{ readonly run: Run; readonly text: string } | null>(null);
/** What went wrong in a run. */
export const runProblem = signal<{ readonly run: Run; readonly text: string } | null>(null);
/** What a run that was stopped left undone. */
export const runLeft = signal<{ readonly run: Run; readonly text: string } | null>(null);
/** Texts that a layout which was found here gave the job. */
const madeBy = signal<ReadonlyMap<string, Card>>(new Map());

const k_map_px = 320;

/** Whether the job has changed otherwise than by one layout in place of another. */
export const isOutOfDate = ({ text }: Found, now: string): boolean => text !== now && madeBy.value.get(now)?.from !== text;

/** Whether the job has this layout now. */
export const isInJob = ({ layout, isOwn, from }: Card, now: string): boolean =>
  now === from ? isOwn : madeBy.value.get(now)?.layout === layout;

export const stop = (): void => patientEngine.stop();

const say = (run: Run, text: string): void => {
  running.value = { run, text };
};

/**
 * Runs; what is found until it ends, or is stopped, stays.
 *
 * @param left what is not done yet, in a sentence
 */
async function begin(run: Run, left: () => string, work: (job: JobFiles, shown: Room) => Promise<void>): Promise<void> {
  if (running.value) return;
  found[run].value = null;
  runProblem.value = null;
  runLeft.value = null;
  say(run, 'Starting');
  try {
    const job = jobNow();
    await work(job, await roomOf(patientEngine, job));
  } catch (why) {
    if (why instanceof Refused) runProblem.value = { run, text: why.message };
    else if (why instanceof Stopped) runLeft.value = { run, text: `Stopped before it was done. ${left()}` };
    else throw why;
  } finally {
    running.value = null;
  }
}

const leftOf = (run: Run): string => (found[run].value ? 'Not all maps are drawn.' : 'Nothing was found yet.');

const card = (layout: Layout, shown: Room, own: Layout, from: string, mark: string): Card => ({
  layout,
  room: shown,
  staying: stayingCans(shown, own),
  from,
  changes: layout === own ? [] : layoutChanges(shown, own, layout),
  isOwn: layout.name === k_own_layout,
  mark,
  isAsked: true,
  reason: '',
  floor: null,
  refusal: '',
});

const withCard = (all: Found, index: number, part: Partial<Card>): Found => ({
  ...all,
  cards: all.cards.map((each, i) => (i === index ? { ...each, ...part } : each)),
});

const k_most_farther = 1.5; // or one layout of many cans would leave all others dark

/** Where the colours of all maps end: as in the plan that is shown, farther where a layout is brighter than the job. */
function commonTop_lx(brightestAverage_lx: number): number | null {
  const shown = light.value?.light;
  const top_lx = shown?.scale.at(-1)?.lx;
  if (!shown || top_lx === undefined) return null;
  return top_lx * Math.min(k_most_farther, Math.max(1, brightestAverage_lx / shown.results.average_lx));
}

const brightest_lx = (layouts: readonly Layout[]): number => Math.max(...layouts.map(({ average_lx }) => average_lx));

/** Draws the maps one after another, so that cards fill in. */
async function drawMaps(run: Run, job: JobFiles): Promise<void> {
  const { cards, top_lx } = found[run].value ?? { cards: [], top_lx: null };
  for (const [index, { from, changes, floor, refusal }] of cards.entries()) {
    if (floor || refusal) continue;
    say(run, `Drawing map ${index + 1} of ${cards.length}`);
    const start = { ...job, text: from };
    const part = await drawn(start, changes, top_lx);
    const now = found[run].value;
    if (now) found[run].value = withCard(now, index, part);
  }
}

async function drawn(from: JobFiles, changes: readonly Change[], top_lx: number | null): Promise<Partial<Card>> {
  try {
    const text = changes.length === 0 ? from.text : await changedText(patientEngine, from, changes);
    return { floor: await floorPicture(patientEngine, { ...from, text }, k_map_px, top_lx) };
  } catch (why) {
    if (why instanceof Refused) return { refusal: why.message };
    throw why;
  }
}

const isFewest = ({ gives_all_wanted, cans }: Layout, fewest: number | null): boolean =>
  gives_all_wanted && cans === fewest;

/** How many holes of a layout cannot be cut where they are, in words; empty: none, or it is not known. */
function toMoveText({ misfits }: Layout): string {
  if (!misfits) return '';
  return misfits === 1 ? '1 hole has to move' : `${misfits} holes have to move`;
}

function fewestText(layouts: readonly Layout[], fewest: number | null): string {
  if (fewest === null) return 'None of these gives all that is wanted.';
  const isClear = layouts.some((layout) => isFewest(layout, fewest) && !layout.misfits);
  const but = isClear ? '' : ', but in each of those layouts holes hit something and have to move';
  return `The fewest cans here that give all that is wanted: ${fewest}${but}.`;
}

function remarkOn({ layouts, fewest_cans_at_target: fewest, counts_without_layout, left_out }: Comparison): string {
  return [
    fewestText(layouts, fewest),
    counts_without_layout.length > 0 ? `No usual layout has ${counts_without_layout.join(' or ')} cans here.` : '',
    left_out.length > 0 ? `Left out, for a can would be inside of something: ${left_out.join('; ')}.` : '',
  ]
    .filter(Boolean)
    .join(' ');
}

/** The rules of thumb that lay cans out like this, there or moved off the framing. */
function reasonFor({ name }: Layout, rules: readonly RuleOfThumb[]): string {
  const reckonings = rules.filter(({ layout }) => layout && name.startsWith(layout)).map(({ reckoning }) => reckoning);
  return reckonings.length === 0 ? '' : `Here by rule of thumb, only to compare: ${reckonings.join(' ')}`;
}

export const compare = (counts: readonly number[]): Promise<void> =>
  begin('compare', () => leftOf('compare'), async (job, shown) => {
    const comparison = await compared(patientEngine, job, counts, (text) => say('compare', text));
    const { layouts, fewest_cans_at_target: fewest, rules_of_thumb: rules } = comparison;
    const own = layouts.find(({ name }) => name === k_own_layout);
    if (!own) return;
    const mark = (layout: Layout): string =>
      isFewest(layout, fewest)
        ? ['Fewest cans that give all that is wanted', toMoveText(layout)].filter(Boolean).join('; ')
        : '';
    const isAsked = ({ name, cans }: Layout): boolean => name === k_own_layout || counts.includes(cans);
    found.compare.value = {
      text: job.text,
      units: shown.units,
      cards: layouts.map((layout) => ({
        ...card(layout, shown, own, job.text, mark(layout)),
        isAsked: isAsked(layout),
        reason: isAsked(layout) ? '' : reasonFor(layout, rules),
      })),
      remark: remarkOn(comparison),
      top_lx: commonTop_lx(brightest_lx(layouts.filter(isAsked))),
    };
    await drawMaps('compare', job);
  });

/** What a layout costs; where the job has no prices, each can counts alike. */
const price = ({ cost, cans }: Layout): number => cost ?? cans;

/** As the engine chooses within one search: the cheaper one, of two alike the one whose darkest point is brighter. */
const isBetter = (a: Layout, b: Layout): boolean =>
  price(a) === price(b) ? a.minimum_lx > b.minimum_lx : price(a) < price(b);

const k_cheapest = 'The cheapest that will do';

/** Cards of one more count; the cheapest so far keeps the mark. */
function withCount(all: Found, more: readonly Card[], best: Layout | null): Found {
  const hasOwn = all.cards.some(({ isOwn }) => isOwn);
  const cards = [...all.cards, ...more.filter(({ isOwn }) => !isOwn || !hasOwn)];
  const isBest = ({ layout, isOwn }: Card): boolean =>
    best !== null && (layout === best || (isOwn && best.name === k_own_layout));
  return {
    ...all,
    cards: cards.map((each) => ({ ...each, mark: isBest(each) ? k_cheapest : '' })),
    remark: best
      ? `${k_cheapest}, of the counts looked at: ${best.cans} cans, ${best.name}.`
      : 'No layout in rows of these counts gives all that is wanted and hits nothing.',
  };
}

/** Where a search begins. Of the layouts to come nobody knows how bright they are: about as their number of cans. */
function nothingYet(job: JobFiles, shown: Room, { layouts }: Search, counts: readonly number[]): Found {
  const perCan_lx = Math.max(...layouts.map(({ average_lx, cans }) => average_lx / Math.max(1, cans)));
  const top_lx = commonTop_lx(perCan_lx * Math.max(...counts));
  return { text: job.text, units: shown.units, cards: [], remark: '', top_lx };
}

/** Looks at one count after another, so that results come in one by one. */
export function search(counts: readonly number[]): Promise<void> {
  const unseen = new Set(counts);
  const left = (): string =>
    unseen.size === 0 ? leftOf('search') : `Not looked at: ${[...unseen].join(' and ')} cans.`;
  return begin('search', left, async (job, shown) => {
    let best: Layout | null = null;
    for (const count of counts) {
      const begun = `Looking at ${count} cans`;
      say('search', begun);
      const result = await searched(patientEngine, job, count, (text) => say('search', `${begun}: ${text}`));
      const own = result.layouts.find(({ name }) => name === k_own_layout);
      if (!own) return;
      const cheapest: Layout | undefined = result.layouts[(result.cheapest_layout ?? 0) - 1];
      if (cheapest && (!best || isBetter(cheapest, best))) best = cheapest;
      const cards = result.layouts.map((layout) => card(layout, shown, own, job.text, ''));
      found.search.value = withCount(found.search.value ?? nothingYet(job, shown, result, counts), cards, best);
      unseen.delete(count);
      await drawMaps('search', job);
    }
  });
}

/** The job as it was earlier and as it is now. */
export const lookBack = (): Promise<void> =>
  begin('earlier', () => leftOf('earlier'), async (job, shown) => {
    const label = k_befores[before.value];
    const jobBefore = { ...job, text: textBefore.value };
    const { jobs } = await comparedToEarlier(patientEngine, job, jobBefore.text);
    const [first, now] = jobs;
    if (!first || !now) return;
    const roomBefore = await roomOf(patientEngine, jobBefore);
    found.earlier.value = {
      text: job.text,
      units: shown.units,
      cards: [
        { ...card(first, roomBefore, first, jobBefore.text, ''), layout: { ...first, name: label } },
        { ...card(now, shown, now, job.text, ''), layout: { ...now, name: 'As it is now' } },
      ],
      remark: '',
      top_lx: commonTop_lx(brightest_lx(jobs)),
    };
    await drawMaps('earlier', job);
  });

/**
 * Gives the job a layout.
 *
 * @returns what the engine says against it; empty when it is done
 */
export async function use(card: Card): Promise<string> {
  const { text } = jobNow();
  const wrong = await change(card.changes, card.from);
  if (!wrong) noteBeforeLayout(text);
  if (!wrong && !card.isOwn) madeBy.value = new Map([...madeBy.value, [jobNow().text, card]]);
  return wrong;
}
