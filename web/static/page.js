// What the pages beside the panel have in common: the language, the look, the cautions and the ways to the other pages.

import { h, text } from './dom.js';
import { t, setLanguage } from './pure/text.js';
import { setUnits } from './pure/units.js';
import { load } from './settings.js';

const settings = load();
setLanguage(settings.language);
setUnits(settings.units);

/** @param {string} name @returns {HTMLElement} */
export function at(name) {
  const node = document.getElementById(name);
  if (!node) throw new Error(`the page has no ${name}`);
  return node;
}

/** Puts the standing words of the page in, in the language of now. @param {string} title @param {string} [up] to the root of the pages */
export function dress(title, up = './') {
  document.documentElement.dataset['theme'] = settings.theme;
  document.documentElement.lang = settings.language;
  document.title = `${t(title)} · Halfturn`;
  text(at('title'), t(title));
  text(at('caution'), t('Simulator practice only. Never for use in an aircraft, not for navigation, no credit toward a license. The aircraft’s handbook, local rules and a licensed instructor come first.'));
  const links = title === 'Sessions' ? [h('a', { href: up, id: 'to-panel' }, t('Panel'))]
    : [h('a', { href: `${up}sessions`, id: 'to-sessions' }, t('Sessions')), h('a', { href: up, id: 'to-panel' }, t('Panel'))];
  at('pages').replaceChildren(...links);
}
