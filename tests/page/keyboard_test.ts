import assert from 'node:assert/strict';
import { eventually, type OpenedPage } from './opened_page';
import { pageTest, pageTests } from './page_tests';

const tool = (opened: OpenedPage, name: string) =>
  opened.page.locator('.tools').getByRole('button', { name, exact: true });

/** What there is to work with, each in the state in which most of it is shown. */
const k_shown: Readonly<Record<string, (opened: OpenedPage) => Promise<void>>> = {
  'the plan': async (opened) => {
    await opened.press(opened.page.getByText('All that is in the room'));
  },
  'the panel of a can': async (opened) => {
    await opened.press(opened.page.getByText('All that is in the room'));
    await opened.press(opened.page.locator('.contents').getByRole('button', { name: /^Can 1,/ }));
    await opened.press(opened.button('Keys for: From west'));
  },
  'the panel of the room': (opened) => opened.press(tool(opened, 'Room')),
  'the panel of what is new': (opened) => opened.press(tool(opened, 'Add …')),
  'the view Choose': async (opened) => {
    await opened.show('Choose');
    await opened.press(opened.button('Compare'));
    await opened.page.locator('.choose .card').first().waitFor();
    await opened.button('Compare').waitFor();
  },
  'the view See': (opened) => opened.show('See'),
  'the view Hand over': async (opened) => {
    await opened.show('Hand over');
    await opened.press(opened.page.getByText('The job as text'));
    await opened.drop({ name: 'x.ies', bytes: 'no photometric file' });
    await opened.button('Leave it out: x.ies').waitFor();
  },
  'a shopping list': async (opened) => {
    await opened.show('Hand over');
    await opened.press(opened.button(/^Shopping list/));
    await opened.button('All sheets').waitFor();
  },
  'the menu of the job': async (opened) => {
    await opened.openMenu();
    await opened.press(opened.page.getByText('Rooms to try'));
    await opened.press(opened.page.getByText('New room', { exact: true }));
    await opened.press(opened.button('L'));
    await opened.press(opened.button('Forget everything kept here'));
  },
};

const k_controls = 'button, input, select, textarea, summary, a[href], [tabindex="0"]';
const k_target_px = 44;

/** Controls that a finger may miss, by their names. */
const smallTargets = (opened: OpenedPage): Promise<readonly string[]> =>
  opened.page.evaluate(
    ([controls, least]) =>
      [...document.querySelectorAll<HTMLElement>(controls)]
        .filter((each) => each instanceof HTMLElement && each.checkVisibility() && !each.matches('[role=region]'))
        .map((each) => ({ each, box: (each.closest('.file-button') ?? each).getBoundingClientRect() }))
        .filter(({ box }) => box.width < least || box.height < least)
        .map(({ each, box }) => `${each.outerHTML.slice(0, 120)}: ${box.width} x ${box.height}`),
    [k_controls, k_target_px - 0.01] as const, // boxes are fractions of pixels
  );

/** Goes through the page by the tab key: what was never come to, and what did not show that it has the focus. */
async function tabbed(opened: OpenedPage): Promise<{ missed: readonly string[]; unseen: readonly string[] }> {
  const { page } = opened;
  const count = await page.evaluate((controls) => {
    const look = (element: Element): string =>
      [element.closest('.file-button') ?? element, ...element.querySelectorAll('*')]
        .map((each) => getComputedStyle(each))
        .map(({ outlineStyle, outline, stroke, strokeWidth }) =>
          [outlineStyle === 'none' ? '' : outline, stroke, strokeWidth].join(),
        )
        .join(';');
    const wanted = [...document.querySelectorAll(controls)].filter(
      (each) => each.checkVisibility() && !each.matches(':disabled'),
    );
    const dim = new Map<Element, string>();
    if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
    for (const each of wanted) dim.set(each, look(each));
    const unseen = new Set<Element>();
    const left = new Set(wanted);
    const onFocus = ({ target }: FocusEvent): void => {
      if (!(target instanceof Element)) return;
      left.delete(target);
      if (dim.get(target) === look(target)) unseen.add(target);
    };
    document.addEventListener('focusin', onFocus);
    const html = (all: Iterable<Element>): string[] => [...all].map((each) => each.outerHTML.slice(0, 160));
    Object.assign(globalThis, { tabbed: () => ({ missed: html(left), unseen: html(unseen) }) });
    return wanted.length;
  }, k_controls);
  for (let i = 0; i < count + 3; ++i) await page.keyboard.press('Tab');
  return page.evaluate(() => (globalThis as unknown as { tabbed: () => Awaited<ReturnType<typeof tabbed>> }).tabbed());
}

for (const [what, show] of Object.entries(k_shown)) {
  pageTest(`${what}: every control is a finger wide`, 'phone', async (opened) => {
    await show(opened);
    assert.deepEqual(await smallTargets(opened), []);
    const overhang = await opened.page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    assert.ok(overhang <= 0, `the page is ${overhang} px too wide`);
  });

  pageTest(`${what}: the tab key comes to every control, and each shows it`, 'desktop', async (opened) => {
    await show(opened);
    assert.deepEqual(await tabbed(opened), { missed: [], unseen: [] });
  });
}

pageTests('a can is moved by arrow keys alone, many steps in one change', async (opened) => {
  await opened.openDemo('family-room');
  const before = await opened.text();
  await opened.can(2).focus();
  await opened.page.keyboard.press('Enter');
  await opened.page.locator('.panel').waitFor();
  for (const key of ['ArrowRight', 'ArrowRight', 'ArrowUp', 'Shift+ArrowUp']) await opened.page.keyboard.press(key);
  // It was 6' 11" from the west wall and 3' 3" from the south wall; a step is half an inch, with Shift half a foot.
  await eventually(async () =>
    assert.match((await opened.can(2).getAttribute('aria-label')) ?? '', /7' 0" from west, 3' 9-1\/2" from south/),
  );
  await opened.changed((text) => text !== before);
  await opened.page.keyboard.press('Escape');
  await opened.page.locator('.panel').waitFor({ state: 'detached' });
  await opened.page.keyboard.press('Control+z');
  await opened.changed((text) => text === before);
  await opened.page.keyboard.press('Control+Shift+z');
  await opened.changed((text) => text !== before);
});

pageTest('arrow keys read the light from point to point', 'desktop', async (opened) => {
  await opened.openDemo('metric-kitchen');
  await opened.page.locator('.plan-drawing').focus();
  const readings = new Set<string>();
  for (const key of ['ArrowRight', 'ArrowRight', 'ArrowRight', 'ArrowUp']) {
    await opened.page.keyboard.press(key);
    readings.add(await opened.page.locator('.reading text').innerHTML());
  }
  assert.ok(readings.size > 1 && [...readings].every((text) => /\d lx/.test(text)), [...readings].join());
});

pageTest('the theme of choice holds after a reload', 'phone', async (opened) => {
  const paper = (): Promise<string> => opened.page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
  const light = await paper();
  await opened.openMenu();
  await opened.press(opened.button('Dark'));
  const dark = await paper();
  assert.notEqual(dark, light);
  await opened.page.reload();
  await opened.page.locator('.facts').waitFor();
  assert.equal(await paper(), dark);
});
