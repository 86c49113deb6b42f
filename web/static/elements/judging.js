// What an instructor makes of a session: verdicts overruled, the form of the published test, the signature.

/** @import { FlownLegs, Form, FormElement, Forms, SessionDetail, Signing } from '../sessions.d.ts' */
/** @import { Check, Leg } from '../types.d.ts' */

import { post, save } from '../api.js';
import { attr, h, show, text } from '../dom.js';
import { number, verdictWords } from '../pure/format.js';
import { longestInput } from '../pure/names.js';
import { dayWords, timeWords } from '../pure/sessions.js';
import { cardText, language, t } from '../pure/text.js';
import { looking, may } from '../rights.js';
import { checkList } from './checklist.js';
import { overruleForm } from './overrule.js';

const byKey = 'halfturn-by';

export class Judging extends HTMLElement {
  #open = h('details', { id: 'judging' });
  #summary = h('summary');
  #hint = h('p', { class: 'soft' }, t('Open, it lets you overrule each check where it stands.'));
  #by = h('input', { type: 'text', id: 'judged-by', maxlength: longestInput, autocomplete: 'name' });
  #leg = h('button', { type: 'button' }, t('Overrule the leg'));
  #series = h('button', { type: 'button' }, t('Overrule the series'));
  #place = h('div');
  #checks = h('div', { class: 'series-checks' });
  #form = h('div', { class: 'test-form' });
  #signed = h('div', { class: 'signed' });
  #sign = h('button', { type: 'button', id: 'sign' }, t('Sign'));
  #error = h('p', { class: 'control-error', role: 'alert' });
  #api = '';
  /** @type {Forms | null} */ #forms = null;
  /** @type {FlownLegs | null} */ #list = null;
  #n = 0;

  connectedCallback() {
    if (this.firstChild) return;
    this.#by.value = remembered();
    this.#open.append(this.#summary, this.#hint,
      h('div', { class: 'judge-row' },
        h('label', { class: 'field', for: 'judged-by' }, h('span', { class: 'soft' }, t('By')), this.#by),
        this.#leg, this.#series, this.#sign),
      this.#place, this.#error, this.#checks, this.#form);
    this.append(this.#signed, this.#open);
    this.#open.addEventListener('toggle', () => {
      if (this.#open.open) document.body.dataset['judging'] = 'true';
      else delete document.body.dataset['judging'];
    });
    this.#leg.addEventListener('click', () => this.#ask(this.#place, t('the leg'), this.#sheet(), { leg: this.#n }));
    this.#series.addEventListener('click', () =>
      this.#ask(this.#place, t('the series'), this.#whole(), { series: this.#sheet()?.series ?? 0 }));
    this.#sign.addEventListener('click', () => void this.#send('sign', { name: this.#by.value.trim() }));
    document.addEventListener('click', (e) => {
      const b = e.target instanceof Element ? e.target.closest('.overrule-check') : null;
      const check = b instanceof HTMLElement ? b.dataset['check'] ?? '' : '';
      if (!b?.parentElement) return;
      const series = this.#checks.contains(b);
      const of = series ? this.#whole() : this.#sheet();
      const it = of?.checks?.find((c) => c.id === check);
      const what = series ? { series: this.#sheet()?.series ?? 0 } : { leg: this.#n };
      if (it) this.#ask(b.parentElement, cardText(it.label), it, { ...what, check });
    });
    void looking().then(() => this.#draw());
  }

  #sheet() {
    return this.#list?.legs.find((l) => l.n === this.#n);
  }

  /** The series of the leg that is shown, once it is over. */
  #whole() {
    return this.#list?.series[(this.#sheet()?.series ?? 0) - 1];
  }

  /**
   * @param {Element} place
   * @param {string} of
   * @param {Check | Leg | import('../sessions.d.ts').FlownSeries | undefined} it
   * @param {{ leg?: number, series?: number, check?: string }} what
   */
  #ask(place, of, it, what) {
    place.querySelector('.overrule-form')?.remove();
    if (!it) return;
    const form = overruleForm(of, it, (verdict, reason) =>
      this.#send('overrule', { leg: 0, series: 0, check: '', ...what, verdict, reason, by: this.#by.value.trim() }));
    place.append(form);
    form.querySelector('select')?.focus();
  }

  /** @param {string} what @param {object} body @returns {Promise<string>} why it was refused */
  async #send(what, body) {
    remember(this.#by.value.trim());
    /** @type {Awaited<ReturnType<typeof post<SessionDetail>>>} */
    const got = await post(`${this.#api}/${what}`, body);
    text(this.#error, got.error);
    if (got.value) this.dispatchEvent(new CustomEvent('judged', { detail: got.value }));
    return got.error;
  }

  /**
   * @param {string} api
   * @param {SessionDetail | null} detail
   * @param {FlownLegs | null} list
   * @param {Forms | null} forms
   * @param {number} n the leg that is shown
   */
  update(api, detail, list, forms, n) {
    this.#api = api;
    this.#list = list;
    this.#forms = forms;
    this.#n = n;
    this.#place.replaceChildren();
    const signed = detail?.judging.signed ?? [];
    this.#signed.replaceChildren(...signed.map(signedLine));
    show(this.#sign, detail !== null && detail.ended !== '' && (signed.at(-1)?.after ?? 1) > 0);
    show(this.#series, (this.#sheet()?.series ?? 0) <= (list?.series.length ?? 0));
    show(this, detail !== null);
    this.#draw();
  }

  #draw() {
    const series = this.#sheet()?.series ?? 0;
    const form = this.#forms?.forms.find((f) => f.series === series);
    this.#form.replaceChildren(...(form ? this.#formOf(form) : []));
    const judges = may('instruct');
    text(this.#summary, judges ? t('Judge this session') : t('The form of the test'));
    show(this.#hint, judges);
    const whole = this.#whole();
    const checks = whole?.checks ?? [];
    show(this.#checks, checks.length > 0);
    this.#checks.replaceChildren(...(whole && checks.length > 0
      ? [h('h3', {}, t('Checks of the series')), checkList(checks)] : []));
    show(this.#open, judges || checks.length > 0 || (form?.document ?? '') !== '');
  }

  /** @param {Form} f */
  #formOf(f) {
    if (f.document === '') return [h('p', { class: 'soft' }, t('There is no published test of this maneuver.'))];
    const pdf = h('button', { type: 'button' }, t('The form as PDF'));
    pdf.addEventListener('click', () => void save(
      `${this.#api}/form.pdf?series=${f.series}${language() === 'en' ? '' : `&language=${language()}`}`,
    ).then((error) => text(this.#error, error)));
    return [
      h('div', { class: 'form-head' }, h('h2', {}, `${f.document} ${f.task}`), pdf),
      h('ul', { class: 'rows elements' }, ...f.elements.map((e) => this.#row(f, e))),
    ];
  }

  /** @param {Form} f @param {FormElement} e */
  #row(f, e) {
    const checks = e.checks.map((c) => `${cardText(c.label)}: ${verdictWords(c.verdict)}`).join(', ');
    const said = e.by === '' ? '' : e.mark === e.computed
      ? t('marked by {by}', { by: e.by })
      : t('marked by {by}; by the checks: {mark}', { by: e.by, mark: markWords(e.computed) });
    const marks = /** @type {const} */ (['satisfactory', 'unsatisfactory', 'not-observed']);
    const buttons = marks.map((m) => {
      const b = h('button', { type: 'button', 'aria-pressed': String(m === e.mark), 'data-mark': m },
        markWords(m));
      b.addEventListener('click', () => void this.#send('observe', {
        series: f.series, element: e.id, mark: m === e.computed && e.by !== '' ? '' : m, by: this.#by.value.trim(),
      }));
      return b;
    });
    return h('li', { class: 'element' },
      h('span', { class: 'element-id' }, cardText(e.id)),
      h('span', { class: 'element-asks' }, cardText(e.asks)),
      h('span', { class: 'element-marks', role: 'group', 'aria-label': cardText(e.id) },
        ...(may('instruct') ? buttons : [markWords(e.mark)])),
      h('span', { class: 'element-why small soft' },
        [checks || cardText(e.reason), said].filter(Boolean).join(' · ')));
  }
}

/** @param {string} mark */
function markWords(mark) {
  return t(mark === 'not-observed' ? 'not observed' : mark);
}

/** Who signed, and whether all is as it was then. @param {Signing} s */
export function signedLine(s) {
  const when = `${dayWords(s.at)}, ${timeWords(s.at)}`;
  const parts = [
    t('Signed by {by}, {when}', { by: s.by || t('somebody'), when }),
    s.holds ? t('as it was signed') : t('not as it was signed: something was changed since'),
    s.after === 0 ? '' : t('added after signing: {n}', { n: number(s.after) }),
    s.removed === 0 ? '' : t('names removed since: {n}', { n: number(s.removed) }),
  ];
  const line = h('p', { class: 'signed-line' }, parts.filter(Boolean).join(' · '));
  attr(line, 'data-holds', String(s.holds));
  return h('div', {}, line, h('p', { class: 'hash small soft' }, `SHA-256 ${s.hash}`));
}

function remembered() {
  try {
    return (localStorage.getItem(byKey) ?? '').slice(0, 80);
  } catch {
    return ''; // storage is off
  }
}

/** @param {string} by */
function remember(by) {
  try {
    localStorage.setItem(byKey, by);
  } catch {
    // storage is off: it is asked for again
  }
}
