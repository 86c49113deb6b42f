// The page that a link to watch a station opens. The token stands behind the #, which is not sent with the address.

import { post } from './api.js';
import { text } from './dom.js';
import { at, dress } from './page.js';
import { t } from './pure/text.js';

dress('Watch');
const link = location.hash.slice(1);
history.replaceState(null, '', location.pathname); // it is not left in the address, nor in the list of pages
text(at('state'), t('One moment'));
/** @type {{ value: { station: string } | null, error: string }} */
const { value, error } = await post('api/invited', { link });
if (value === null) text(at('state'), error);
else location.replace(`./?${new URLSearchParams({ station: value.station })}`);
