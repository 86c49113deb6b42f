// A verdict that a person gave in the place of a computed one: the line that says so, and the form that asks for it.

/** @import { Check, Computed, Leg, Overruled, Verdict } from '../types.d.ts' */
/** @import { FlownSeries } from '../sessions.d.ts' */

import { h, text } from '../dom.js';
import { number, verdictWords } from '../pure/format.js';
import { t } from '../pure/text.js';

/** What was computed, in words. @param {Computed} c */
export function computedWords(c) {
  if (!c.grade || c.verdict === 'not-measured') return verdictWords(c.verdict);
  return t('{grade}, {score} of 100', { grade: t(c.grade), score: number(c.score) });
}

/** "overruled by B. Example after signing: gust; computed: missed", '' where nobody did.
 * @param {{ overruled?: Overruled, computed?: Computed }} of */
export function overruledWords({ overruled, computed }) {
  const parts = [];
  if (overruled) {
    const names = { by: overruled.by || t('somebody'), reason: overruled.reason || '–' };
    parts.push(overruled.afterSigning
      ? t('overruled by {by} after signing: {reason}', names)
      : t('overruled by {by}: {reason}', names));
  }
  if (computed) parts.push(t('computed: {what}', { what: computedWords(computed) }));
  return parts.join('; ');
}

/** The line of a leg or a series, nothing where it stands as computed. @param {Leg | FlownSeries} of */
export function overruledLine(of) {
  const words = overruledWords(of);
  return words === '' ? [] : [h('p', { class: 'overruled small' }, words)];
}

/** @type {readonly Verdict[]} */
const verdicts = ['met', 'near', 'missed', 'not-measured'];

/**
 * Asks for a verdict and a reason.
 * @param {string} of what is overruled, in words
 * @param {Check | Leg | FlownSeries} it
 * @param {(verdict: string, reason: string) => Promise<string>} send returns why it was refused, '' when it was not
 */
export function overruleForm(of, it, send) {
  const choice = h('select', { 'aria-label': t('Verdict on {what}', { what: of }) },
    ...verdicts.filter((v) => v !== it.verdict).map((v) => h('option', { value: v }, verdictWords(v))));
  if (it.overruled) choice.append(h('option', { value: '' }, t('as computed')));
  const reason = h('input', { type: 'text', maxlength: 500, 'aria-label': t('Reason'), placeholder: t('Reason') });
  const save = h('button', { type: 'submit' }, t('Overrule'));
  const leave = h('button', { type: 'button', class: 'leave' }, t('Cancel'));
  const error = h('p', { class: 'control-error', role: 'alert' });
  const form = h('form', { class: 'overrule-form' }, choice, reason, save, leave, error);
  leave.addEventListener('click', () => form.remove());
  form.addEventListener('keydown', (e) => {
    if (e.key === 'Escape') form.remove();
  });
  form.addEventListener('submit', (e) => {
    e.preventDefault();
    if (choice.value !== '' && reason.value.trim() === '') {
      text(error, t('Say why the verdict is overruled.'));
      reason.focus();
      return;
    }
    save.disabled = true;
    void send(choice.value, reason.value.trim()).then((why) => {
      save.disabled = false;
      text(error, why);
    });
  });
  return form;
}
