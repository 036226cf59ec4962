import { render } from 'preact';
import { jobOfPage, demoJobs } from './job/embedded';
import { begin } from './job/job_desk';
import { Shell } from './shell';
import { showChosenTheme } from './parts/theme';

showChosenTheme();
const page = document.getElementById('page')!;
page.replaceChildren(); // what stood there until the script ran
render(<Shell />, page);

// The job that was worked on last in this page, or the page's own, or a demo.
const own = jobOfPage();
void begin(own?.name ?? '', own ?? demoJobs().find((job) => job.name === 'living-room.toml'));
