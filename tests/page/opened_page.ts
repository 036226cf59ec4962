// Opens the page in Chromium from a file, as people do, and holds it to what it promises whatever a test does in it: no
// error, no request, and nothing that the accessibility guidelines forbid.

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import axe from 'axe-core';
import { type Browser, type BrowserContext, chromium, type Locator, type Page } from 'playwright-core';
import type { Files } from '../../src/page/engine/messages';
import type { Light } from '../../src/page/engine/results';

/** The blank page, as scripts/page makes it, and the native program. */
export const k_page = resolve(process.env['EVENLIT_PAGE'] ?? '.build/page/evenlit.html');
export const k_program = resolve(process.env['EVENLIT_PROGRAM'] ?? '.build/release/evenlit');

/** What the native program prints. */
export const evenlit = (...words: string[]): string =>
  execFileSync(k_program, words, { encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] });

export const scene = (name: string): string => readFileSync(`scenes/${name}.toml`, 'utf8');

export const k_demos = [
  'attic-bedroom',
  'family-room',
  'hallway',
  'keeping-room',
  'l-shaped-den',
  'living-room',
  'metric-kitchen',
  'open-kitchen',
] as const;

interface Screen {
  readonly viewport: { readonly width: number; readonly height: number };
  readonly hasTouch: boolean;
  readonly isMobile: boolean;
  readonly deviceScaleFactor?: number;
}

export const k_screens = {
  phone: { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true },
  desktop: { viewport: { width: 1440, height: 900 }, hasTouch: false, isMobile: false },
} as const satisfies Record<string, Screen>;

export type ScreenName = keyof typeof k_screens;

const k_patience_ms = 60_000; // many times what anything here takes on an idle core

/** Tries again until a check holds. */
export async function eventually(check: () => Promise<void> | void): Promise<void> {
  const end = Date.now() + k_patience_ms;
  for (;;) {
    try {
      return await check();
    } catch (why) {
      if (Date.now() > end) throw why;
      await new Promise((go) => setTimeout(go, 50));
    }
  }
}

const k_guidelines = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

type Answered = { answers: Record<string, Uint8Array> };

/** Keeps what the engine last wrote, file by file, beside the page. */
function keepAnswers(): void {
  const kept: Record<string, Uint8Array> = {};
  Object.assign(globalThis, { answers: kept });
  const Native = Worker;
  Object.assign(globalThis, {
    Worker: class extends Native {
      constructor(address: string | URL) {
        super(address);
        this.addEventListener('message', ({ data }: MessageEvent<{ steps?: readonly { files: Files }[] }>) => {
          for (const step of data.steps ?? []) Object.assign(kept, step.files);
        });
      }
    },
  });
}

/** What a graphics driver in software remarks on its own speed. */
const k_slow_driver = /GL Driver Message \(OpenGL, Performance, /;

export class OpenedPage {
  /** What the page did that it must not do. */
  readonly faults: string[] = [];

  private constructor(
    readonly context: BrowserContext,
    readonly page: Page,
    readonly isTouched: boolean,
  ) {
    page.on('console', (message) => {
      if (k_slow_driver.test(message.text())) return;
      if (message.type() === 'error' || message.type() === 'warning') this.faults.push(`console: ${message.text()}`);
    });
    page.on('pageerror', (error) => this.faults.push(`error: ${error.message}`));
    page.on('crash', () => this.faults.push('crash'));
    page.on('dialog', (dialog) => {
      this.faults.push(`dialog: ${dialog.message()}`);
      void dialog.dismiss();
    });
    context.on('request', (request) => {
      const address = request.url();
      const isOwn = address.startsWith('blob:') || address.startsWith('data:') || /^file:.*\.html$/.test(address);
      if (!isOwn) this.faults.push(`request: ${address}`);
    });
  }

  static async opened(browser: Browser, screen: Screen, file = k_page): Promise<OpenedPage> {
    const context = await browser.newContext({ ...screen, acceptDownloads: true, reducedMotion: 'reduce' });
    context.setDefaultTimeout(k_patience_ms);
    const page = await context.newPage();
    const opened = new OpenedPage(context, page, screen.hasTouch);
    await page.addInitScript(keepAnswers);
    await page.goto(pathToFileURL(file).href);
    await page.locator('.facts').waitFor();
    await opened.lit();
    return opened;
  }

  button(name: string | RegExp): Locator {
    return this.page.getByRole('button', { name, exact: true });
  }

  field(name: string): Locator {
    return this.page.getByLabel(name, { exact: true });
  }

  /** A can, counted from 1, on the plan. */
  can(number: number): Locator {
    return this.page.locator(`[data-kind=can][data-number="${number}"]`);
  }

  cans(): Locator {
    return this.page.locator('[data-kind=can]');
  }

  press(locator: Locator): Promise<void> {
    return this.isTouched ? locator.tap() : locator.click();
  }

  async show(view: 'Plan' | 'Choose' | 'See' | 'Hand over'): Promise<void> {
    await this.press(this.page.getByRole('navigation').getByRole('button', { name: view }));
  }

  /** Waits until the light of the job is shown. */
  async lit(): Promise<void> {
    await this.page.waitForFunction(
      () =>
        document.querySelector('.busy')?.textContent === '' &&
        (document.querySelector('.facts:not(.rough)') || !document.querySelector('.plan')),
    );
  }

  async heading(): Promise<string> {
    return this.page.locator('h1').innerText();
  }

  /** The job's text, as the browser keeps it. */
  async text(): Promise<string> {
    return (await this.kept())?.text ?? '';
  }

  /** What the browser keeps of the job that is open in this tab: its text, and how many there are to undo. */
  async kept(): Promise<{ readonly text: string; readonly undoable: number } | null> {
    return this.page.evaluate(async () => {
      const result = <T>(request: IDBRequest<T>): Promise<T> =>
        new Promise((resolve, reject) => {
          request.onsuccess = () => resolve(request.result);
          request.onerror = () => reject(request.error);
        });
      const [key = ''] = Object.keys(sessionStorage);
      const id = sessionStorage.getItem(key) ?? '';
      const database = await result(indexedDB.open('evenlit'));
      try {
        const found: unknown = await result(database.transaction('kept').objectStore('kept').get(id));
        const list = (found as { list: { texts: string[]; at: number } } | undefined)?.list;
        return list ? { text: list.texts[list.at] ?? '', undoable: list.at } : null;
      } finally {
        database.close();
      }
    });
  }

  /** The job's text once it is as wanted and its light is shown. */
  async changed(isThere: (text: string) => boolean): Promise<string> {
    let text = '';
    await eventually(async () => {
      text = await this.text();
      assert.ok(isThere(text), text);
    });
    await this.lit();
    return text;
  }

  async openMenu(): Promise<void> {
    await this.press(this.button('Job: open, save, settings'));
  }

  async openDemo(name: string): Promise<void> {
    await this.openMenu();
    await this.press(this.page.getByText('Rooms to try'));
    await this.press(this.page.locator('details', { hasText: 'Rooms to try' }).getByRole('button', { name: `${name}.toml` }));
    await this.page.locator('.panel').waitFor({ state: 'detached' });
    await this.lit();
  }

  /** Opens files as the button in the view "Hand over" does. */
  async openFiles(...files: { name: string; bytes: Buffer | string }[]): Promise<void> {
    await this.show('Hand over');
    await this.field('Open files').setInputFiles(
      files.map(({ name, bytes }) => ({ name, mimeType: '', buffer: Buffer.from(bytes) })),
    );
  }

  /** Opens a job that the engine can compute, and shows its plan. */
  async openJob(name: string, text: string): Promise<void> {
    await this.openFiles({ name, bytes: text });
    await this.changed((now) => now === text);
    await this.show('Plan');
    await this.lit();
  }

  /** Lets files fall on the page. */
  async drop(...files: { name: string; bytes: Buffer | string }[]): Promise<void> {
    const given = files.map(({ name, bytes }) => ({ name, base64: Buffer.from(bytes).toString('base64') }));
    await this.page.evaluate((all) => {
      const dataTransfer = new DataTransfer();
      for (const { name, base64 } of all) {
        dataTransfer.items.add(new File([Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0))], name));
      }
      for (const kind of ['dragover', 'drop']) {
        document.body.dispatchEvent(new DragEvent(kind, { dataTransfer, bubbles: true, cancelable: true }));
      }
    }, given);
  }

  /** Drags along a line, with a finger or a mouse; `whileHeld` runs before it is let go. */
  async drag(from: Spot, to: Spot, whileHeld: () => Promise<void> = async () => {}): Promise<void> {
    const steps = [1, 2, 3, 4, 5].map((i) => ({
      x: from.x + ((to.x - from.x) * i) / 5,
      y: from.y + ((to.y - from.y) * i) / 5,
    }));
    if (this.isTouched) {
      const finger = await this.context.newCDPSession(this.page);
      const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', spots: readonly Spot[]) =>
        finger.send('Input.dispatchTouchEvent', { type, touchPoints: [...spots] });
      await touch('touchStart', [from]);
      for (const spot of steps) await touch('touchMove', [spot]);
      await whileHeld();
      await touch('touchEnd', []);
      await finger.detach();
      return;
    }
    await this.page.mouse.move(from.x, from.y);
    await this.page.mouse.down();
    for (const spot of steps) await this.page.mouse.move(spot.x, spot.y);
    await whileHeld();
    await this.page.mouse.up();
  }

  /** What the page's engine wrote last of `light --json`. */
  async light(): Promise<Light> {
    const text = await this.page.evaluate(() =>
      new TextDecoder().decode((globalThis as unknown as Answered).answers['light.json']),
    );
    return JSON.parse(text) as Light;
  }

  /** What the guidelines forbid in what is shown now, by WCAG 2.2 AA. */
  async barriers(): Promise<readonly string[]> {
    await this.page.evaluate(axe.source);
    return this.page.evaluate(async (guidelines) => {
      const { violations } = await (globalThis as unknown as { axe: typeof axe }).axe.run(document, { runOnly: guidelines });
      return violations.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.html}: ${node.failureSummary}`));
    }, k_guidelines);
  }

  /** Ends a test: everything that the page did and shows was allowed. */
  async end(): Promise<void> {
    assert.deepEqual(await this.barriers(), []);
    assert.deepEqual(this.faults, []);
  }
}

interface Spot {
  readonly x: number;
  readonly y: number;
}

export async function middleOf(locator: Locator): Promise<Spot> {
  await locator.scrollIntoViewIfNeeded();
  const box = await locator.boundingBox();
  assert.ok(box, 'is not shown');
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

let browser: Promise<Browser> | undefined;

/** One browser for all that a program opens. */
export function theBrowser(): Promise<Browser> {
  browser ??= chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox'] });
  return browser;
}
