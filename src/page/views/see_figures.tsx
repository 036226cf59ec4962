// The light of what is shown, from the engine, once nothing has moved for a moment.

import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { changedText, type JobFiles, lightOf, Refused } from '../engine/commands';
import { Stopped } from '../engine/engine';
import type { Light } from '../engine/results';
import { engine, room } from '../job/job_desk';
import { Fact } from '../parts/facts';
import { lightText, type Units } from '../parts/light_text';
import { isAsInJob, levelChanges } from './see_light';
import { lighting, shotOf, shown } from './see_state';

const k_rest_ms = 300;

type Results = Light['results'];

/** null: not known yet, or no longer true. */
export const results = signal<Results | null>(null);
const problem = signal('');

async function resultsOf(job: JobFiles, changes: ReturnType<typeof levelChanges>): Promise<Results> {
  const text = changes.length === 0 ? job.text : await changedText(engine, job, changes);
  return (await lightOf(engine, { ...job, text })).results;
}

/** Asks for the figures of what is shown; what was asked before no longer counts. */
export function useFigures(): void {
  const now = shown.value;
  const set = lighting.value;
  useEffect(() => {
    results.value = null;
    problem.value = '';
    const levels = shotOf(now?.model)?.levels;
    if (!now || !levels) return undefined;
    let isWanted = true;
    const ask = async (): Promise<void> => {
      try {
        const found = await resultsOf(now.job, isAsInJob(set) ? [] : levelChanges(now.model, levels));
        if (isWanted) results.value = found;
      } catch (why) {
        if (why instanceof Refused) problem.value = why.message;
        else if (!(why instanceof Stopped)) throw why;
      }
    };
    const timer = setTimeout(() => void ask(), k_rest_ms);
    return () => {
      isWanted = false;
      clearTimeout(timer);
    };
  }, [now, set]);
}

/** The figures in a sentence. */
export const figuresText = ({ average_lx, minimum_lx }: Results, units: Units): string =>
  `${lightText(average_lx, units)} on average on the work plane, ${lightText(minimum_lx, units)} at its darkest point`;

export function Figures() {
  const units = room.value?.units ?? 'metric';
  const found = results.value;
  const said = (value: (of: Results) => string): string => (found ? value(found) : '…');
  return (
    <div role="status">
      <dl class="facts see-figures" aria-busy={found === null}>
        <Fact
          name="Average"
          plain="of the work plane"
          value={said(({ average_lx }) => lightText(average_lx, units))}
        />
        <Fact name="Darkest" plain="point of it" value={said(({ minimum_lx }) => lightText(minimum_lx, units))} />
        <Fact
          name="Evenness"
          plain="darkest / average"
          value={said((of) => of.uniformity_minimum_over_average.toFixed(2))}
        />
      </dl>
      {problem.value && <p class="wrong">{problem.value}</p>}
    </div>
  );
}
