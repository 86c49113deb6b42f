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
 * @param {(kind: import('./picture.js').PictureKind) => void} picture saves the picture of the leg
 */
export function fileMenu(api, leg, failed, picture) {
  const rows = [row(api, t('the session'), '', failed)];
  if (leg) rows.push(row(api, t('leg {n}', { n: leg }), `leg=${leg}`, failed));
  return [h('summary', {}, t('Share and export')), h('div', { class: 'menu-sheet' },
    ...shares(api, leg, failed, picture), ...rows)];
}

/**
 * What is given to others: a file that needs no server, one page of paper, a picture.
 * @param {string} api @param {number | undefined} leg @param {(words: string) => void} failed
 * @param {(kind: import('./picture.js').PictureKind) => void} picture
 */
function shares(api, leg, failed, picture) {
  const names = h('input', { type: 'checkbox', id: 'share-names' });
  const kinds = { png: t('Picture (PNG)'), svg: t('Picture (SVG)') };
  const pictures = /** @type {const} */ (['png', 'svg']).map((kind) => {
    const save = h('button', { type: 'button', id: `share-${kind}` }, kinds[kind]);
    save.addEventListener('click', () => picture(kind));
    return save;
  });
  return [
    h('p', { class: 'share' }, h('span', { class: 'soft' }, t('to share')),
      link(() => `${api}/share.html${names.checked ? '?names=1' : ''}`, t('one file (HTML)'), failed),
      ...(leg ? [
        link(() => `${api}/print.pdf?leg=${leg}&language=${language()}`, t('one page (PDF)'), failed),
        ...pictures,
      ] : [])),
    h('label', { class: 'field', for: 'share-names' }, names,
      t('with the student’s name, the station and the remarks')),
  ];
}

/** @param {string} api @param {string} name @param {string} query @param {(words: string) => void} failed */
function row(api, name, query, failed) {
  const links = formats.map(([format = '', word = '']) =>
    link(`${api}/export?format=${format}${query === '' ? '' : `&${query}`}`, word, failed));
  const more = `${query === '' ? '' : `&${query}`}&language=${language()}`;
  const pdf = link(`${api}/print.pdf?all=1${more}`, 'PDF', failed);
  return h('p', {}, h('span', { class: 'soft' }, name), ...links, pdf);
}

/** @param {string | (() => string)} of the path @param {string} name @param {(words: string) => void} failed */
function link(of, name, failed) {
  const path = () => (typeof of === 'string' ? of : of());
  const a = h('a', { href: new URL(`../${path()}`, import.meta.url).href, download: '' }, name);
  a.addEventListener('click', async (e) => {
    e.preventDefault(); // a link alone could not say why there is no file
    failed(await save(path()));
  });
  return a;
}
