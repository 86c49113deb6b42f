// After a leg: the grade, the posts, the one thing to change and why, the checks worst first.

/** @import { Cause, Check, Leg, Plan } from '../types.d.ts' */
/** @import { PlanItem } from '../course.d.ts' */
/** @import { State } from '../view.d.ts' */

import { attr, h, show, text } from '../dom.js';
import { checkNumbers } from '../pure/check.js';
import { itemWords } from '../pure/course.js';
import { verdictWords } from '../pure/format.js';
import { worstFirst } from '../pure/marks.js';
import { told } from '../pure/phrase.js';
import { sameChoice } from '../pure/store.js';
import { cardText, language, t } from '../pure/text.js';
import { units } from '../pure/units.js';
import { headOf, postLabel, scoreParts } from './judged.js';
import { mark } from './mark.js';
import { proposals } from './otherwise.js';
import { explained, term } from './term.js';

export class Debrief extends HTMLElement {
  /** @type {Leg | null} */ #leg = null;
  #built = '';
  #head = h('h2');
  #verdict = h('p', { class: 'verdict' });
  #score = h('p', { class: 'score' });
  #posts = h('ol', { class: 'verdicts' });
  #change = h('p', { class: 'change' });
  #other = h('p', { class: 'otherwise' });
  #series = h('p', { class: 'series' });
  #why = h('ul', { class: 'rows causes' });
  #task = h('p', { class: 'task' });
  #taskWords = h('span');
  #on = h('button', { type: 'button', class: 'fly-set', 'aria-keyshortcuts': 'G' });
  #refused = h('span', { class: 'control-error', role: 'alert' });
  /** What comes after the step. @type {PlanItem | null} */ #after = null;
  /** @type {(item: PlanItem) => Promise<string>} */ #take = async () => '';
  #list = h('ul', { class: 'rows checks' });
  /** That it goes on below, where it scrolls. */ #below = h('p', { class: 'more-below', 'aria-hidden': 'true' });

  connectedCallback() {
    attr(this, 'role', 'region');
    this.#task.replaceChildren(this.#taskWords, ' ', this.#on, this.#refused);
    this.#on.addEventListener('click', () => void this.#goOn());
    attr(this, 'tabindex', 0); // it scrolls where it has little room
    this.replaceChildren(
      this.#head,
      this.#verdict,
      this.#score,
      this.#task,
      this.#change,
      this.#posts,
      this.#other,
      this.#series,
      this.#why,
      this.#list,
      this.#below,
    );
    this.addEventListener('scroll', () => this.#scrolled(), { passive: true });
    new ResizeObserver(() => this.#scrolled()).observe(this);
  }

  #scrolled() {
    show(this.#below, this.scrollHeight - this.clientHeight - this.scrollTop > 8);
  }

  /**
   * What is flown next in the course: offered beside a step that is passed.
   * @param {PlanItem | null} item @param {(item: PlanItem) => Promise<string>} take sets it up; returns why not
   */
  next(item, take) {
    this.#after = item;
    this.#take = take;
  }

  async #goOn() {
    if (this.#after === null) return;
    this.#on.disabled = true;
    text(this.#refused, await this.#take(this.#after));
    this.#on.disabled = false;
  }

  /** @param {State} state */
  update(state) {
    const leg = state.last;
    const on = state.info?.task?.state === 'passed' && this.#after?.step !== state.info.task.step ? this.#after : null;
    show(this.#on, on !== null);
    if (on !== null) text(this.#on, t('Go on: {what}', { what: itemWords(on) }));
    const missing = missingOf(state);
    const other = state.lastPlan && !sameChoice(state.lastPlan, state.plan) ? state.lastPlan.aircraft : '';
    const task = leg ? taskWords(leg, state) : '';
    const built = [language(), units(), missing, other, task, canDrill(state)].join();
    if (leg === null || (leg === this.#leg && built === this.#built)) return;
    this.#leg = leg;
    this.#built = built;
    attr(this, 'aria-label', t('Debrief'));
    attr(this.#list, 'aria-label', t('Checks, worst first'));
    const flown = state.lastPlan;
    text(this.#head, [
      flown ? cardText(flown.title) : t('Leg'),
      flown && flown.legs > 1 ? t('leg {n} of {of}', { n: leg.number, of: flown.legs }) : '',
      leg.direction === 'left' ? t('to the left') : t('to the right'),
      other === '' ? '' : t('flown in: {aircraft}', { aircraft: cardText(other) }),
    ].filter(Boolean).join(', '));
    this.#verdict.replaceChildren(mark(leg.verdict), h('span', { class: 'verdict-word' }, ...explained(headOf(leg))));
    this.#score.replaceChildren(...scoreParts(leg));
    show(this.#task, task !== '');
    text(this.#taskWords, task);
    text(this.#refused, '');
    attr(this.#posts, 'aria-label', t('Checkpoints'));
    this.#posts.replaceChildren(...posts(leg, flown));
    show(this.#posts, this.#posts.childElementCount > 0);
    show(this.#change, leg.change !== '' || leg.verdict === 'met');
    this.#change.replaceChildren(
      ...(leg.change === ''
        ? [t('Again, the same')]
        : [h('span', { class: 'change-head' }, t('Change this: ')), ...explained(told(leg.change))]),
    );
    const proposed = proposals(leg).map((p) => p.words).join(' ');
    show(this.#other, proposed !== '');
    text(this.#other, proposed);
    show(this.#series, missing !== '');
    text(this.#series, t('The series is not complete: {what}.', { what: told(missing) }));
    const causes = leg.causes ?? [];
    if (leg.change !== '' && causes[0] && canDrill(state)) this.#change.append(' ', this.#drill(causes[0], state));
    show(this.#why, causes.length > 0);
    this.#why.replaceChildren(...causes.slice(0, 1).map((c) => h('li', {},
      h('span', { class: 'cause' }, told(c.advice)), h('span', { class: 'cause-evidence soft' }, told(c.evidence)))));
    this.#list.replaceChildren(...worstFirst(leg.checks ?? []).map(row));
    this.scrollTop = 0;
    text(this.#below, t('more below'));
    this.#scrolled();
  }

  /** Has a cause drilled in what the leg was flown of. @param {Cause} cause @param {State} state */
  #drill(cause, state) {
    const { maneuver = '', standard = '' } = state.lastPlan ?? state.plan ?? {};
    const aircraft = state.info?.aircraft ?? '';
    const button = h('button', { type: 'button', class: 'drill' }, t('Drill this'));
    button.addEventListener('click', () =>
      this.dispatchEvent(new CustomEvent('drill', { detail: { maneuver, standard, aircraft, cause: cause.id } })));
    return button;
  }
}

/**
 * Whether the cause of the last leg can be drilled here: the leg came to its end, and was flown live.
 * @param {State} state
 */
function canDrill({ last, info, lastPlan, plan }) {
  if (info?.task?.cause && info.task.cause === last?.causes?.[0]?.id) return false; // it is drilled now
  return last?.outcome === 'finished' && info?.link === 'live' && !info.replay && !info.demonstration &&
    (lastPlan ?? plan) !== null;
}

/** How the drill or the step stands that the leg was flown in, in words. @param {Leg} leg @param {State} state */
function taskWords({ drill }, { info }) {
  const task = info?.task;
  if (drill || task?.cause) {
    const { row, want = 0 } = drill ?? task ?? { row: 0 };
    if (row >= want) return t('Drill: {want} in a row, done', { want });
    return t('Drill: {n} of {want} in a row', { n: row, want });
  }
  if (!task?.step) return '';
  const step = cardText(task.title);
  if (task.state === 'passed') return t('Step {step}: passed', { step });
  if (task.state === 'slipped' && task.prompts === 'all') {
    return t('Step {step}: slipped, and all is said again', { step });
  }
  const [one, other] = task.sides ?? [];
  if (!one) return '';
  const { good, need } = one;
  return other
    ? t('Step {step}: good to the right {right} of {need}, to the left {left} of {need}',
      { step, right: good, left: other.good, need })
    : t('Step {step}: {good} good of {need}', { step, good, need });
}

/** What the series of the last leg lacks, once it is over. @param {State} state */
function missingOf({ last, series }) {
  const over = series.at(-1);
  return last !== null && over?.legs?.at(-1)?.start === last.start ? over.missing ?? '' : '';
}

/**
 * The entry, the checkpoints and the leg as a whole, where something was judged.
 * @param {Leg} leg
 * @param {Plan | null} plan
 */
function posts(leg, plan) {
  return (leg.posts ?? []).map(({ turn, verdict }) => {
    const shape = mark(verdict);
    attr(shape, 'aria-hidden', 'true'); // the word is beside it
    const is = verdictWords(verdict);
    const first = verdict !== 'not-measured' && leg.posts?.find((p) => p.verdict === verdict)?.turn === turn;
    return h('li', {},
      shape,
      h('span', {},
        h('span', { class: 'verdict-post' }, postLabel(plan, turn)),
        ' ',
        h('span', { class: 'verdict-is' }, first ? term(verdict, is) : is),
      ),
    );
  });
}

/** @param {Check} check */
function row(check) {
  return h('li', {}, h('span', { class: 'row-mark' }, mark(check.verdict)),
    h('span', { class: 'row-label' }, cardText(check.label)),
    h('span', { class: 'row-value' }, verdictWords(check.verdict)),
    h('span', { class: 'row-want soft' },
      check.note ? `${checkNumbers(check)}. ${told(check.note)}` : checkNumbers(check),
    ),
  );
}
