// The page that asks for name and password.

/** @import { Doors } from './people.d.ts' */

import { call, post } from './api.js';
import { show, text } from './dom.js';
import { at, dress } from './page.js';
import { destination } from './pure/enter.js';
import { t } from './pure/text.js';

const name = /** @type {HTMLInputElement} */ (at('name'));
const password = /** @type {HTMLInputElement} */ (at('password'));

dress('Log in');
text(at('name-label'), t('Name'));
text(at('password-label'), t('Password'));
text(at('submit'), t('Log in'));
text(at('code'), t('Type the code of the simulator instead'));
/** @type {HTMLAnchorElement} */ (at('code')).search = location.search;

at('form').addEventListener('submit', async (event) => {
  event.preventDefault();
  const { error } = await post('api/login', { name: name.value, password: password.value });
  text(at('wrong'), error);
  if (error === '') location.replace(destination(location.search));
  else password.select();
});

/** @type {{ value: Doors | null }} */
const { value } = await call('api/door');
if (value !== null) {
  show(at('code'), value.code);
  show(at('form'), value.users);
  show(at('none'), !value.users);
  text(
    at('none'),
    t(
      'Nobody can log in here yet. On the machine that Halfturn runs on, the page Set-up shows a code for tablets ' +
        'and phones, and halfturn users add makes users.',
    ),
  );
}
