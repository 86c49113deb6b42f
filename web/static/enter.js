// The page that asks a device of the network for the code shown at the simulator.

/** @import { Doors } from './people.d.ts' */

import { call, post } from './api.js';
import { show, text } from './dom.js';
import { at, dress } from './page.js';
import { destination } from './pure/enter.js';
import { t } from './pure/text.js';

const code = /** @type {HTMLInputElement} */ (at('code'));

dress('Connect');
text(at('label'), t('The code that stands on the page Set-up at the simulator'));
text(at('submit'), t('Connect'));

at('form').addEventListener('submit', async (event) => {
  event.preventDefault();
  const { error } = await post('api/enter', { code: code.value });
  text(at('wrong'), error);
  if (error === '') location.replace(destination(location.search));
  else code.select();
});

text(at('login'), t('Log in by name instead'));
/** @type {HTMLAnchorElement} */ (at('login')).search = location.search;
/** @type {{ value: Doors | null }} */
const { value } = await call('api/door');
show(at('login'), value?.users === true);
