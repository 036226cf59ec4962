// The pictures of the page that README.md shows: scripts/renders.

import { k_screens, OpenedPage, theBrowser } from './opened_page';

async function takePictures(): Promise<void> {
  const browser = await theBrowser();
  const opened = await OpenedPage.opened(browser, { ...k_screens.phone, deviceScaleFactor: 2 });
  await opened.page.screenshot({ path: 'renders/page-plan.png' });
  await opened.press(opened.button('See'));
  await opened.page.locator('canvas').waitFor();
  await opened.page.getByRole('button', { name: 'Stop', exact: true }).waitFor({ state: 'detached' });
  await opened.page.screenshot({ path: 'renders/page-see.png' });
  await browser.close();
}

void takePictures();
