import { signal } from '@preact/signals';
import { textBefore } from '../job/earlier';
import { jobText, room } from '../job/job_desk';
import { BeforeChoice } from '../parts/before_choice';
import { CountChips } from '../parts/count_chips';
import { EngineSays } from '../parts/engine_says';
import { lightText } from '../parts/light_text';
import { say } from '../parts/said';
import { shownView } from '../shell';
import { type Card, compare, found, isInJob, isOutOfDate, lookBack, type Run, runLeft, running, runProblem, search, stop, use } from './choose_runs';
import { LayoutCard } from './layout_card';

const k_ways = {
  compare: {
    label: 'Usual layouts',
    about: 'How many cans, and how far apart: even, staggered and other usual layouts beside the job’s own.',
    start: 'Compare',
  },
  search: {
    label: 'Best places',
    about: 'Looks at all even rows that fit between the joists, and for the best places without rows, count by count.',
    start: 'Find the best places',
  },
  earlier: { label: 'Before, after', about: 'The job as it was earlier beside the job as it is now. For the light that a room has now: draw it, note it, then change it.', start: 'Compare both' },
} as const satisfies Record<Run, { label: string; about: string; start: string }>;

const k_ways_in_order: readonly Run[] = ['compare', 'search', 'earlier'];
const k_usual_counts = [4, 5, 6, 8, 9, 12];

const shownWay = signal<Run>('compare');
/** null: not chosen yet, those near the job's own number. */
const chosen = signal<ReadonlySet<number> | null>(null);

/** How many cans the job has of the type that it has most of: what comparisons lay out. */
function ownCount(): number {
  const counts = new Map<string, number>();
  for (const { type } of room.value?.cans ?? []) counts.set(type, (counts.get(type) ?? 0) + 1);
  return Math.max(0, ...counts.values());
}

function offeredCounts(): readonly number[] {
  const own = ownCount();
  return [...new Set([...k_usual_counts, own - 1, own, own + 1])].filter((count) => count > 0);
}

function chosenCounts(): ReadonlySet<number> {
  const near = [...k_usual_counts].sort((a, b) => Math.abs(a - ownCount()) - Math.abs(b - ownCount())).slice(0, 3);
  return chosen.value ?? new Set(near);
}

function start(run: Run): void {
  const counts = [...chosenCounts()].sort((a, b) => a - b);
  if (run === 'compare') void compare(counts);
  else if (run === 'search') void search(counts);
  else void lookBack();
}

async function useCard(card: Card): Promise<string> {
  const wrong = await use(card);
  if (wrong) return wrong;
  say(`The job has this layout now: ${nameOf(card)}. Undo, at the top, brings the old one back.`);
  shownView.value = 'plan';
  return '';
}

function Ways() {
  return (
    <div class="segments" role="group" aria-label="What to compare">
      {k_ways_in_order.map((way) => (
        <button key={way} type="button" aria-pressed={shownWay.value === way} onClick={() => (shownWay.value = way)}>
          {k_ways[way].label}
        </button>
      ))}
    </div>
  );
}

function Controls({ run }: { run: Run }) {
  const now = running.value;
  const isWithoutCounts = run !== 'earlier' && chosenCounts().size === 0;
  const isUnchanged = run === 'earlier' && textBefore.value === jobText.value;
  return (
    <>
      {run !== 'earlier' && (
        <CountChips
          label="Numbers of cans"
          offered={offeredCounts()}
          chosen={chosenCounts()}
          onChange={(counts) => (chosen.value = counts)}
        />
      )}
      {run === 'earlier' && <BeforeChoice />}
      {isUnchanged && <p class="soft">Nothing is changed since.</p>}
      <p class="run">
        {now?.run === run ? (
          <button type="button" onClick={stop}>
            Stop
          </button>
        ) : (
          <button
            type="button"
            class="main"
            disabled={now !== null || isWithoutCounts || isUnchanged || room.value === null}
            onClick={() => start(run)}
          >
            {k_ways[run].start}
          </button>
        )}
        <span>{now?.text ?? ''}</span>
      </p>
    </>
  );
}

/** What a run found in a sentence or two, for who cannot see the cards come in. */
function summary(run: Run): string {
  const left = runLeft.value;
  return [left?.run === run ? left.text : '', found[run].value?.remark ?? ''].filter(Boolean).join(' ');
}

/** The job's own layout is called so only as long as it is. */
function nameOf(card: Card): string {
  if (!card.isOwn) return card.layout.name;
  return isInJob(card, jobText.value) ? 'as in the job' : 'as it was';
}

function titleOf(card: Card, run: Run): string {
  const { cans } = card.layout;
  return run === 'earlier' ? card.layout.name : `${cans} ${cans === 1 ? 'can' : 'cans'}: ${nameOf(card)}`;
}

function Cards({ run, cards, isOld }: { run: Run; cards: readonly Card[]; isOld: boolean }) {
  return (
    <ul class="cards">
      {cards.map((card, index) => {
        const isNow = !isOld && isInJob(card, jobText.value);
        return (
          <LayoutCard
            key={index}
            card={card}
            name={nameOf(card)}
            title={titleOf(card, run)}
            isInJob={isNow}
            onUse={run === 'earlier' || isOld || isNow ? null : () => useCard(card)}
          />
        );
      })}
    </ul>
  );
}

function Results({ run }: { run: Run }) {
  const all = found[run].value;
  if (!all) return null;
  const isOld = isOutOfDate(all, jobText.value);
  const others = all.cards.filter(({ isAsked }) => !isAsked);
  return (
    <>
      {all.top_lx !== null && (
        <p class="soft">All maps have the same colours: the brightest is {lightText(all.top_lx, all.units)} and more.</p>
      )}
      {isOld && <p class="lacks">The job has changed since: compute this again.</p>}
      <Cards run={run} cards={all.cards.filter(({ isAsked }) => isAsked)} isOld={isOld} />
      {others.length > 0 && (
        <section class="others" aria-labelledby="other-counts">
          <h2 id="other-counts">Other numbers of cans</h2>
          <p class="soft">You did not ask for these. Rules of thumb of the trade lead to them: they are here to compare.</p>
          <Cards run={run} cards={others} isOld={isOld} />
        </section>
      )}
      <p class="soft">
        A calculation chooses by light and framing alone: mind doors, fans, furniture and what looks right. Before cutting,
        measure again, look above the ceiling and prove the circuit dead; licensed practice and the local code come first.
      </p>
    </>
  );
}

/** How many cans, and where. */
export function Choose() {
  const run = shownWay.value;
  const wrong = runProblem.value;
  return (
    <div class="choose">
      <Ways />
      <p>{k_ways[run].about}</p>
      <Controls key={run} run={run} />
      <EngineSays text={wrong?.run === run ? wrong.text : ''} />
      <p role="status" class="summary">
        {summary(run)}
      </p>
      <Results run={run} />
    </div>
  );
}
