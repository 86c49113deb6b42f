// Users on the program itself: the owner at home adds one, and from then on everybody logs in.

import assert from 'node:assert/strict';
import { nothingInTheWay, openPage, sharing, sizes, startHouse, test, until, violations } from './harness.js';

const own = sharing({ house: () => startHouse([]) });

test('the owner is added, logs in, and out', async () => {
  const at = (path) => new URL(path, own.house.url).href;
  const { page, complaints, close } = await openPage(own.browser, at('people'), {
    viewport: sizes.phone, allow: ['401', '403'],
  });
  await page.getByText('There are no users').waitFor();
  assert.equal(await page.locator('.me').count(), 0, 'at home nobody is logged in');
  await page.getByLabel('Name').fill('Bo <b>Example</b>');
  await page.getByRole('button', { name: 'Add a user' }).click();
  const password = await page.locator('#told code').textContent();
  assert.match(password, /^[a-z0-9]{5}(-[a-z0-9]{5}){3}$/);

  await page.goto(at('sessions?student=Ada'));
  await page.waitForURL(/\/login\?to=%2Fsessions%3Fstudent%3DAda$/);
  await nothingInTheWay(page);
  assert.deepEqual(await violations(page), []);
  await page.getByLabel('Name').fill('bo <B>example</B>');
  await page.getByLabel('Password').fill('wrong password');
  await page.locator('#submit').click();
  await page.getByText('Name or password is wrong').waitFor();
  await page.getByLabel('Password').fill(password);
  await page.locator('#submit').click();
  await page.waitForURL(/\/sessions\?student=Ada$/);
  await until(page, '.me a', 'Bo <b>Example</b>'); // shown as it was written

  await page.locator('.me a').click();
  await page.getByText('What was asked for last').waitFor();
  await nothingInTheWay(page);
  assert.deepEqual(await violations(page), []);
  await page.getByLabel('Password of now').fill(password);
  await page.getByLabel('New password').fill('another pass phrase');
  await page.getByRole('button', { name: 'Change the password' }).click();
  await page.getByText('The password is changed').waitFor();

  await page.getByRole('button', { name: 'Log out' }).click();
  await page.waitForURL(/\/login$/);
  assert.equal(await page.evaluate(async () => (await fetch('api/me')).status), 401);
  assert.deepEqual(complaints, []);
  await close();
});
