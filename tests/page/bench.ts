// How fast the page is and what it takes, as a table: scripts/page_bench. Nothing here is a test.

import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { createRequire } from 'node:module';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { k_demos, k_page, k_program, k_screens, middleOf, OpenedPage, theBrowser } from './opened_page';

const k_wasm = resolve(process.env['EVENLIT_WASM'] ?? '.build/wasm');
const k_starts = 5;
const k_drags = 40;
const k_rests = 7;
const k_settings = 20;
const k_rested_ms = 5000;
const k_patience_ms = 120_000;
const k_runs = 5;
/** Chromium slows the page's own thread down by this, which is what draws; workers, where the engine runs, it does not. */
const k_slowdowns = [1, 4] as const;

function quantile(values: readonly number[], fraction: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(fraction * sorted.length))] ?? NaN;
}

function row(what: string, figure: number, unit: string): void {
  console.log(`${what.padEnd(88)} ${String(Number(figure.toPrecision(3))).padStart(6)} ${unit}`);
}

async function openedSlowly(slowdown: number): Promise<OpenedPage> {
  const opened = await OpenedPage.opened(await theBrowser(), k_screens.desktop);
  const session = await opened.context.newCDPSession(opened.page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: slowdown });
  return opened;
}

/** From navigation until the first figures stand there. */
async function start_ms(slowdown: number): Promise<number> {
  const opened = await openedSlowly(slowdown);
  await opened.page.addInitScript(() => {
    new MutationObserver(() => {
      if (!Reflect.has(globalThis, 'started_ms') && document.querySelector('.facts')) {
        Reflect.set(globalThis, 'started_ms', performance.now());
      }
    }).observe(document, { subtree: true, childList: true });
  });
  await opened.page.goto(pathToFileURL(k_page).href);
  await opened.page.locator('.facts').waitFor();
  const time_ms = await opened.page.evaluate(() => Number(Reflect.get(globalThis, 'started_ms')));
  await opened.context.close();
  return time_ms;
}

/** From each move of a can until the map of its light is another one. */
async function drags_ms(slowdown: number): Promise<readonly number[]> {
  const opened = await openedSlowly(slowdown);
  const { page } = opened;
  await page.evaluate(() => {
    const times: number[] = [];
    let moved: number | null = null;
    const address = (): string | null => document.querySelector('.plan-drawing image')?.getAttribute('href') ?? null;
    let shown = address();
    addEventListener('pointermove', () => (moved ??= performance.now()), { capture: true });
    new MutationObserver(() => {
      const now = address();
      if (now === null || now === shown) return;
      shown = now;
      if (moved !== null) times.push(performance.now() - moved);
      moved = null;
      (Reflect.get(globalThis, 'onShown') as (() => void) | undefined)?.();
    }).observe(document.body, { subtree: true, childList: true, attributes: true });
    Object.assign(globalThis, { times });
  });
  const from = await middleOf(opened.can(1));
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.evaluate(() => (Reflect.get(globalThis, 'times') as number[]).splice(0));
  for (let i = 1; i <= k_drags; ++i) {
    // Nothing polls meanwhile: that would take the page's time.
    const isShown = page.evaluate(() => new Promise<void>((resolve) => Reflect.set(globalThis, 'onShown', resolve)));
    await page.mouse.move(from.x + 10 + 3 * i, from.y - 2 * i);
    await isShown;
  }
  const times = await page.evaluate(() => Reflect.get(globalThis, 'times') as number[]);
  await page.keyboard.press('Escape');
  await page.mouse.up();
  await opened.context.close();
  return times;
}

/** What the process that shows the page and runs its engines holds in memory; Chromium keeps smaller ones for itself. */
async function memory_MB(): Promise<number> {
  const session = await (await theBrowser()).newBrowserCDPSession();
  const { processInfo } = await session.send('SystemInfo.getProcessInfo');
  await session.detach();
  const resident_kB = processInfo
    .filter(({ type }) => type === 'renderer')
    .map(({ id }) => Number(/VmRSS:\s*(\d+) kB/.exec(readFileSync(`/proc/${id}/status`, 'utf8'))?.[1]));
  return Math.max(...resident_kB) / 1000;
}

/** From letting a can go until its light is no rough one any more. */
async function rest_ms({ page }: OpenedPage, can: { x: number; y: number }): Promise<number> {
  await page.evaluate(() => {
    let released = NaN;
    addEventListener('pointerup', () => (released = performance.now()), { capture: true, once: true });
    const watch = new MutationObserver(() => {
      if (Number.isNaN(released) || !document.querySelector('.facts') || document.querySelector('.facts.rough')) return;
      watch.disconnect();
      Reflect.set(globalThis, 'rest_ms', performance.now() - released);
    });
    watch.observe(document, { subtree: true, childList: true, attributes: true });
  });
  await page.mouse.move(can.x, can.y);
  await page.mouse.down();
  await page.mouse.move(can.x + 25, can.y + 15, { steps: 3 });
  await page.locator('.facts.rough').waitFor();
  await page.mouse.up();
  await page.waitForFunction(() => Reflect.has(globalThis, 'rest_ms'));
  const time_ms = await page.evaluate(() => Number(Reflect.get(globalThis, 'rest_ms')));
  await page.evaluate(() => Reflect.deleteProperty(globalThis, 'rest_ms'));
  return time_ms;
}

async function fullAccuracy(): Promise<void> {
  const opened = await OpenedPage.opened(await theBrowser(), k_screens.desktop);
  for (const name of ['living-room', 'open-kitchen']) {
    await opened.openDemo(name);
    const rests: number[] = [];
    for (let i = 0; i < k_rests; ++i) rests.push(await rest_ms(opened, await middleOf(opened.can(1))));
    row(`${name}: can let go until full accuracy, the first time after opening`, rests[0] ?? NaN, 'ms');
    row(`${name}: can let go until full accuracy, median of ${k_rests}`, quantile(rests, 0.5), 'ms');
    row(`${name}: memory of the page's process`, await memory_MB(), 'MB');
  }
  await opened.context.close();
}

interface Dimmed {
  /** Frames that begin until the picture is drawn anew: 1 is the next one. */
  readonly frames: number;
  /** From the slider's move until the picture is drawn, by a graphics processor or the program that stands for one. */
  readonly ms: number;
}

/** What it takes until the picture shows a dimmer's new setting, for some settings. */
async function dimmed(opened: OpenedPage): Promise<readonly Dimmed[]> {
  const { page } = opened;
  const slider = page.locator('.dimmer input[type=range]').first();
  await slider.waitFor({ timeout: k_patience_ms });
  return slider.evaluate(async (element, count) => {
    const range = element as HTMLInputElement;
    const canvas = document.querySelector('canvas');
    const gl = canvas?.getContext('webgl2');
    if (!gl) throw new Error('there is no picture');
    const found: Dimmed[] = [];
    const set = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')?.set;
    for (let i = 0; i < count; ++i) {
      await new Promise((resolve) => setTimeout(resolve, 100));
      found.push(
        await new Promise<Dimmed>((resolve) => {
          let frames = 0;
          const drawElements = gl.drawElements.bind(gl);
          const begun = performance.now();
          gl.drawElements = (...all) => {
            drawElements(...all);
            gl.drawElements = drawElements;
            queueMicrotask(() => {
              gl.readPixels(0, 0, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, new Uint8Array(4));
              resolve({ frames, ms: performance.now() - begun });
            });
          };
          const frame = (): void => {
            ++frames;
            requestAnimationFrame(frame);
          };
          requestAnimationFrame(frame);
          set?.call(range, String(20 + 3 * (i % 20)));
          range.dispatchEvent(new Event('input', { bubbles: true }));
        }),
      );
    }
    return found;
  }, k_settings);
}

async function dimming(): Promise<void> {
  const opened = await OpenedPage.opened(await theBrowser(), k_screens.desktop);
  await opened.openDemo('living-room');
  await opened.show('See');
  const all = await dimmed(opened);
  const frames = all.map((each) => each.frames);
  row(`dimmer moved until its picture is drawn, median of ${k_settings}`, quantile(frames, 0.5), 'frames');
  const times = all.map(({ ms }) => ms);
  row(`dimmer moved until its picture is drawn, by this machine's graphics, median of ${k_settings}`, quantile(times, 0.5), 'ms');
  row("living-room: memory of the page's process, its picture shown", await memory_MB(), 'MB');
  await opened.page.waitForTimeout(k_rested_ms);
  row("living-room: memory of the page's process, the same later", await memory_MB(), 'MB');
  await opened.context.close();
}

/** Processor time of the native program for a job, its start included. */
function native_ms(scene: string): number {
  const script = `TIMEFORMAT=%U; time for i in $(seq ${k_runs}); do "${k_program}" light "${scene}" > /dev/null; done`;
  return (1000 * Number(execFileSync('bash', ['-c', `{ ${script}; } 2>&1`], { encoding: 'utf8' }))) / k_runs;
}

interface Program {
  readonly FS: { mkdir(path: string): void; writeFile(path: string, bytes: Uint8Array): void };
  callMain(words: string[]): number;
}

async function wasmProgram(): Promise<Program> {
  const evenlit = createRequire(resolve('bench'))(`${k_wasm}/evenlit.js`) as (given: object) => Promise<Program>;
  const program = await evenlit({ wasmBinary: readFileSync(`${k_wasm}/evenlit.wasm`), print: () => {}, printErr: () => {} });
  for (const folder of ['scenes', 'photometry']) {
    program.FS.mkdir(folder);
    for (const name of readdirSync(folder)) program.FS.writeFile(`${folder}/${name}`, readFileSync(`${folder}/${name}`));
  }
  return program;
}

/** Processor time of the program in the page for a job, under node, when it has run before. */
function wasm_ms(program: Program, scene: string): number {
  const times = Array.from({ length: k_runs + 1 }, () => {
    const begun = process.cpuUsage();
    if (program.callMain(['light', scene]) !== 0) throw new Error(`${scene} cannot be computed`);
    return process.cpuUsage(begun).user / 1000;
  });
  return quantile(times.slice(1), 0.5);
}

async function main(): Promise<void> {
  row('size of the page', statSync(k_page).size / 1e6, 'MB');
  for (const slowdown of k_slowdowns) {
    const slowed = slowdown === 1 ? '' : `, the page's thread slowed down ${slowdown} times`;
    const starts: number[] = [];
    for (let i = 0; i < k_starts; ++i) starts.push(await start_ms(slowdown));
    row(`start until first figures, median of ${k_starts}${slowed}`, quantile(starts, 0.5), 'ms');
    const drags = await drags_ms(slowdown);
    row(`move of a can until the rough map, median${slowed}`, quantile(drags, 0.5), 'ms');
    row(`move of a can until the rough map, 90 %${slowed}`, quantile(drags, 0.9), 'ms');
  }
  await fullAccuracy();
  await dimming();
  await (await theBrowser()).close();
  const program = await wasmProgram();
  const scenes = k_demos.map((name) => `scenes/${name}.toml`);
  for (const scene of scenes) wasm_ms(program, scene); // until the compiler of the engine has done all that it does
  const ms = (time: number): string => `${Number(time.toPrecision(3))} ms`;
  console.log(`\n${'Processor time of light'.padEnd(32)} ${['native', 'page', 'ratio'].map((head) => head.padStart(12)).join('')}`);
  for (const scene of scenes) {
    const [there, here] = [native_ms(scene), wasm_ms(program, scene)];
    const figures = [ms(there), ms(here), (here / there).toFixed(2)];
    console.log(`${scene.padEnd(32)} ${figures.map((figure) => figure.padStart(12)).join('')}`);
  }
}

void main();
