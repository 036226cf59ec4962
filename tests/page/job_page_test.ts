import assert from 'node:assert/strict';
import { join } from 'node:path';
import { evenlit, k_page, scene } from './opened_page';
import { k_folder, pageTest } from './page_tests';

/** The page that `evenlit page` makes of a demo. */
const pageOf = (name: string) => (): string => {
  const file = join(k_folder, `${name}.html`);
  evenlit('page', `scenes/${name}.toml`, '--html', file, '--blank', k_page);
  return file;
};

pageTest(
  'a page that was made with a job opens with it and its photometric files',
  'phone',
  async (opened) => {
    assert.equal(await opened.heading(), 'Family room');
    assert.equal((await opened.kept())?.text, scene('family-room'));
    await opened.openDemo('metric-kitchen');
    await opened.openMenu();
    await opened.press(opened.button(/^family-room.toml as it came/));
    await opened.page.locator('.panel').waitFor({ state: 'detached' });
    await opened.lit();
    assert.equal(await opened.heading(), 'Family room');
  },
  pageOf('family-room'),
);
