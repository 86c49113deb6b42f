// The files of a session and of one of its legs, to be saved.

import { save } from '../api.js';
import { h } from '../dom.js';
import { language, t } from '../pure/text.js';

const formats = [['csv', 'CSV'], ['parquet', 'Parquet'], ['gpx', 'GPX'], ['kml', 'KML'], ['json', 'JSON']];

/**
 * The menu of files.
 * @param {string} api the address of the session
 * @param {number | undefined} leg the one shown, if any
 * @param {(words: string) => void} failed called with why a file could not be saved, '' for none
 */
export function fileMenu(api, leg, failed) {
  const rows = [row(api, t('the session'), '', failed)];
  if (leg) rows.push(row(api, t('leg {n}', { n: leg }), `leg=${leg}`, failed));
  return [h('summary', {}, t('Export')), h('div', { class: 'menu-sheet' }, ...rows)];
}

/** @param {string} api @param {string} name @param {string} query @param {(words: string) => void} failed */
function row(api, name, query, failed) {
  const links = formats.map(([format = '', word = '']) =>
    link(`${api}/export?format=${format}${query === '' ? '' : `&${query}`}`, word, failed));
  const pdf = link(`${api}/print.pdf?${query === '' ? '' : `${query}&`}language=${language()}`, 'PDF', failed);
  return h('p', {}, h('span', { class: 'soft' }, name), ...links, pdf);
}

/** @param {string} path @param {string} name @param {(words: string) => void} failed */
function link(path, name, failed) {
  const a = h('a', { href: new URL(`../${path}`, import.meta.url).href, download: '' }, name);
  a.addEventListener('click', async (e) => {
    e.preventDefault(); // a link alone could not say why there is no file
    failed(await save(path));
  });
  return a;
}
