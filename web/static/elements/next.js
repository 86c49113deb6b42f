// The next checkpoint: what to look for, the numbers, the seconds.

/** @import { State } from '../view.d.ts' */

import { attr, h, s, text } from '../dom.js';
import { fromTo, number } from '../pure/format.js';
import { laneValue, progress } from '../pure/geometry.js';
import { unclear } from '../pure/mode.js';
import { told } from '../pure/phrase.js';
import { point } from '../pure/store.js';
import { cardText, t } from '../pure/text.js';
import { trouble, untilWords } from '../pure/trouble.js';
import { arrowMark, valueWords } from './lanenow.js';

/** Words of this many characters and more have no room beside the seconds. */
const wordy = 17;

export class NextCheckpoint extends HTMLElement {
  #head = h('h2');
  #label = h('p', { class: 'next-label' });
  #words = h('p', { class: 'strong next-words' });
  #want = h('p', { class: 'soft next-want' });
  #seconds = h('p', { class: 'next-seconds' });
  #lane = h('p', { class: 'trouble-lane' });
  #allowed = h('p');
  #way = arrowMark();
  #value = h('p', { class: 'trouble-value' });
  #trouble = h('div', { class: 'next-trouble', 'aria-hidden': 'true' }, // the band says it, and the lane
    h('div', { class: 'trouble-words' }, this.#lane, this.#allowed), this.#way, this.#value);
  #bar = s('rect', { x: 0, y: 0, width: 0, height: 6, class: 'bar-done' });

  connectedCallback() {
    this.replaceChildren(
      h('div', { class: 'head-row' }, this.#head, this.#seconds),
      h('div', { class: 'next-row' }, this.#label, this.#words, this.#want),
      this.#trouble,
      s('svg', { viewBox: '0 0 100 6', preserveAspectRatio: 'none', class: 'bar', 'aria-hidden': 'true' },
        s('rect', { x: 0, y: 0, width: 100, height: 6, class: 'bar-all' }), this.#bar),
    );
  }

  /** @param {State} state */
  update(state) {
    const { frame, plan } = state;
    const next = frame?.next ?? null;
    // before a turn has become a leg its phase is still the set-up
    const phase = frame?.state === 'turn' ? '' : frame?.phase ?? '';
    text(this.#head, phase ? t('Next · now {phase}', { phase: cardText(phase) }) : t('Next'));
    const safety = state.safety.at(-1);
    attr(this, 'data-waits', String(safety !== undefined));
    text(this.#label, next ? t(next.label) : '');
    text(
      this.#words,
      safety
        ? t('Cues wait {until}.', { until: untilWords(safety.id) })
        : next
        ? cardText(next.words)
        : frame?.unclear
          ? t('Not clear yet which maneuver it is.')
          : frame?.awaited
            ? t('Hold it: the recovery counts.')
            : frame?.state === 'turn'
              ? t('A turn, not yet a leg.')
              : t('Level the wings.'),
    );
    text(this.#want, safety ? '' : told(next?.want ?? ''));
    const [words, want] = [this.#words.textContent?.length ?? 0, this.#want.textContent?.length ?? 0];
    // which of them has the line beside the seconds
    attr(this, 'data-wordy', String(words > wordy && want > 0 && want < wordy));
    text(this.#seconds, safety || next?.seconds == null ? '' : `${number(next.seconds, 1)} s`);
    this.#tell(state);
    const share = plan && frame && next ? progress(plan, frame.turn, next.turn) : 0;
    attr(this.#bar, 'width', Math.round(share * 1000) / 10);
  }

  /** The value that the safety words name, for screens without room for both. @param {State} state */
  #tell(state) {
    const { frame, plan } = state;
    const now = frame && plan && state.safety.length > 0 ? point(frame) : null;
    const is = now && plan ? trouble(state, plan, now, !unclear(state)) : null;
    const lane = plan?.lanes?.find((l) => l.channel === is?.named);
    const value = now && lane ? laneValue(now, lane.channel) : null;
    attr(this, 'data-named', String(value !== null));
    if (!is || !lane || value === null) return;
    const out = is.out.get(lane.channel);
    text(this.#lane, told(lane.title));
    text(this.#allowed, out ? t('allowed here {range}', { range: fromTo(out.low, out.high, lane.unit, 0) }) : '');
    attr(this.#way, 'data-way', is.side === 'high' ? 'down' : is.side === 'low' ? 'up' : '');
    text(this.#value, valueWords(lane.channel, lane.unit, value));
  }
}
