import { render } from 'preact';
import { jobOfPage, demoJobs } from './job/embedded';
import { open, openEmbedded } from './job/job_desk';
import { keptJob } from './job/kept';
import { Shell } from './shell';

/** The job that was worked on last in this page, or the page's own, or a demo. */
async function begin(): Promise<void> {
  const own = jobOfPage();
  const key = own?.name ?? '';
  const kept = await keptJob(key).catch(() => undefined);
  const first = own ?? demoJobs().find((job) => job.name === 'living-room.toml');
  if (kept) await open(kept, key);
  else if (first) await openEmbedded(first, key);
}

render(<Shell />, document.getElementById('page')!);
void begin();
