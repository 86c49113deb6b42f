// What is laid over a leg: one of this session (the other way, the best), or one of another session, such as a
// demonstration.

/** @import { FlownLegs, FlownSheet, LegRef, Model, Models, SessionList, SessionRow } from '../sessions.d.ts' */

import { call } from '../api.js';
import { h, show, text } from '../dom.js';
import { comparable, partner } from '../pure/flight.js';
import { judged, number, stationWords, verdictWords } from '../pure/format.js';
import { refOf, refWords, sameRef } from '../pure/reference.js';
import { dayShort, timeWords } from '../pure/sessions.js';
import { cardText, t } from '../pure/text.js';

export class LayOver extends HTMLElement {
  #own = h('select', { id: 'over' });
  #sessions = h('select', { id: 'over-session' });
  #legs = h('select', { id: 'over-leg' });
  #more = h('span', { class: 'over-more', hidden: '' });
  #error = h('span', { class: 'control-error', role: 'alert' });
  /** @type {{ list: FlownLegs, leg: FlownSheet, id: string, ref: LegRef | null } | null} */ #context = null;
  /** @type {SessionRow[] | null} */ #rows = null;
  /** @type {Map<string, Models>} what the logbook has for a leg */ #models = new Map();

  connectedCallback() {
    if (this.firstChild) return;
    this.#more.append(field('over-session', t('of'), this.#sessions), field('over-leg', t('leg'), this.#legs));
    this.append(field('over', t('Compare with'), this.#own), this.#more, this.#error);
    this.#own.addEventListener('change', () => {
      if (this.#own.value === 'other') void this.#others();
      else {
        show(this.#more, false);
        this.#tell(refOf(this.#own.value, this.#context?.id ?? ''));
      }
    });
    this.#sessions.addEventListener('change', () => void this.#legsOf(this.#sessions.value, true));
    this.#legs.addEventListener('change', () =>
      this.#tell({ session: this.#sessions.value, n: Number(this.#legs.value) }),
    );
  }

  /** @param {LegRef | null} ref */
  #tell(ref) {
    this.dispatchEvent(new CustomEvent('over', { detail: ref }));
  }

  /**
   * @param {FlownLegs} list @param {FlownSheet} leg what it is laid over @param {string} id of its session
   * @param {LegRef | null} ref what lies over it now
   */
  update(list, leg, id, ref) {
    this.#context = { list, leg, id, ref };
    const mate = partner(list.legs, leg.n);
    const options = comparable(list.legs, leg.n).map((l, i) =>
      h('option', { value: refWords({ session: id, n: l.n }, id) },
        label(list, l, i === 0 ? 'best' : l.n === mate?.n ? 'mate' : ''),
      ),
    );
    const models = this.#models.get(`${id} ${leg.n}`);
    if (!models) void this.#ask(id, leg.n);
    const others = models
      ? [
          ...(models.best ? [h('option', { value: refWords(models.best, id) }, modelLabel(models.best, false))] : []),
          ...models.kept.map((m) => h('option', { value: refWords(m, id) }, modelLabel(m, true))),
        ]
      : [];
    this.#own.replaceChildren(
      h('option', { value: '' }, t('nothing')),
      ...options,
      ...others,
      h('option', { value: 'other' }, t('a leg of another session …')),
    );
    const value = refWords(ref, id) ?? '';
    const foreign = ref !== null && ref.session !== id && !others.some((o) => o.value === value);
    this.#own.value = foreign ? 'other' : value;
    show(this.#more, foreign);
    if (foreign && models && !sameRef(ref, { session: this.#sessions.value, n: Number(this.#legs.value) })) {
      void this.#others();
    }
  }

  /**
   * Asks the logbook what a leg can be held against; without an answer there is one choice less.
   * @param {string} id
   * @param {number} n
   */
  async #ask(id, n) {
    /** @type {Awaited<ReturnType<typeof call<Models>>>} */
    const got = await call(`api/sessions/${encodeURIComponent(id)}/legs/${n}/models`);
    this.#models.set(`${id} ${n}`, got.value ?? { version: 1, best: null, kept: [] });
    const now = this.#context;
    if (now?.id === id && now.leg.n === n) this.update(now.list, now.leg, id, now.ref);
  }

  /** Lists the sessions of the same maneuver. */
  async #others() {
    const context = this.#context;
    if (!context) return;
    if (this.#rows === null) {
      /** @type {Awaited<ReturnType<typeof call<SessionList>>>} */
      const got = await call(
        `api/sessions?limit=200&maneuver=${encodeURIComponent(context.list.plans[context.leg.plan]?.maneuver ?? '')}`,
      );
      text(this.#error, got.error);
      this.#rows = got.value?.sessions ?? null;
    }
    const rows = (this.#rows ?? []).filter((r) => r.id !== context.id);
    show(this.#more, true);
    const wanted = context.ref !== null && context.ref.session !== context.id ? context.ref.session : '';
    const known = rows.map((r) => {
      const when = `${dayShort(r.began)} ${timeWords(r.began)}`;
      const words = [r.student || stationWords(r.station), when, r.keep ? t('protected') : ''];
      return h('option', { value: r.id }, words.filter((w) => w !== '').join(' · '));
    });
    const named =
      wanted === '' || rows.some((r) => r.id === wanted) ? known : [h('option', { value: wanted }, wanted), ...known];
    this.#sessions.replaceChildren(
      h('option', { value: '' }, named.length === 0 ? t('there is no other') : t('choose')),
      ...named,
    );
    this.#sessions.value = wanted;
    await this.#legsOf(wanted, false);
    if (wanted === '') this.#sessions.focus();
  }

  /** @param {string} session @param {boolean} first lays its best leg over at once */
  async #legsOf(session, first) {
    this.#legs.replaceChildren();
    this.#legs.disabled = true;
    if (session === '') return;
    /** @type {Awaited<ReturnType<typeof call<FlownLegs>>>} */
    const got = await call(`api/sessions/${encodeURIComponent(session)}/legs`);
    text(this.#error, got.error);
    const context = this.#context;
    if (!got.value || !context || this.#sessions.value !== session) return;
    const { value: list } = got;
    const turn = context.list.plans[context.leg.plan]?.turn;
    const fit = list.legs
      .filter((l) => list.plans[l.plan]?.turn === turn && (l.trace?.length ?? 0) > 0)
      .sort((a, b) => b.score - a.score || a.n - b.n);
    this.#legs.replaceChildren(
      ...fit.map((l, i) => h('option', { value: l.n }, label(list, l, i === 0 && judged(l) ? 'best' : ''))),
    );
    this.#legs.disabled = fit.length === 0;
    if (fit.length === 0) text(this.#error, t('No leg of that session turns as far as this one.'));
    const { ref } = context;
    if (ref?.session === session) this.#legs.value = String(ref.n);
    else if (first && fit[0]) this.#tell({ session, n: fit[0].n });
  }
}

/** @param {string} id @param {string} name @param {HTMLElement} node */
function field(id, name, node) {
  return h('label', { class: 'field', for: id }, h('span', { class: 'soft' }, name), node);
}

/** @param {FlownLegs} list @param {FlownSheet} leg @param {'best' | 'mate' | ''} role */
function label(list, leg, role) {
  const values = { name: legName(list, leg), score: judged(leg) ? number(leg.score) : t(verdictWords(leg.verdict)) };
  if (role === 'best') return t('{name}, {score}: the best', values);
  return role === 'mate' ? t('{name}, {score}: the other way', values) : t('{name}, {score}', values);
}

/** @param {Model} m @param {boolean} kept it is a demonstration */
function modelLabel(m, kept) {
  const values = { who: m.student || t('not named'), date: dayShort(m.began), score: number(m.score) };
  return kept
    ? t('{who}, {date}, {score}: protected', values)
    : t('the best of other sessions, {date}, {score}', values);
}

/** "2 left". @param {FlownLegs} list @param {FlownSheet} leg */
export function legName(list, leg) {
  const plan = list.plans[leg.plan];
  return (
    t('{n} {side}', { n: leg.n, side: t(leg.direction || 'leg') }) +
    (new Set(list.plans.map((p) => p?.title)).size > 1 ? ` · ${cardText(plan?.title ?? '')}` : '')
  );
}

