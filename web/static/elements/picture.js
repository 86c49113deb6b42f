// The picture of a leg as a file: its lanes and its way over the ground, with the verdict over them. An SVG file that
// needs nothing beside it, or the PNG file that the browser makes of it, for programs that take no SVG.

/** @import { View } from '../sessions.d.ts' */

import { shortCaution } from '../caution.js';
import { h, s } from '../dom.js';
import { cardText, t } from '../pure/text.js';

/** What is written into the file, as the page's styles are not there. */
const kept = ['fill', 'stroke', 'stroke-width', 'stroke-dasharray', 'stroke-linecap', 'stroke-linejoin', 'font-size',
  'font-weight', 'font-family', 'paint-order', 'opacity', 'text-anchor'];

/** Over the lanes, px: the verdict and what was flown; under them the caution. */
const head = 92;
const foot = 34;

/** @typedef {'svg' | 'png'} PictureKind */

/** A PNG has this many pixels for one of the page, so that it is sharp on paper. */
const fine = 2;

/**
 * @param {View} view
 * @param {Element} sheet @param {Element} ground
 * @param {string} verdict in words
 * @param {PictureKind} kind
 * @returns {Promise<string>} why there is no picture, in words; '' when it is saved
 */
export async function savePicture(view, sheet, ground, verdict, kind) {
  const svg = pictureOf(view, sheet, ground, verdict);
  const drawing = new Blob([new XMLSerializer().serializeToString(svg)], { type: 'image/svg+xml' });
  const data = kind === 'svg' ? drawing : await painted(drawing);
  if (data === null) return t('This browser cannot make a PNG file of it: take the SVG file.');
  const url = URL.createObjectURL(data);
  h('a', { href: url, download: `leg-${view.main.n}.${kind}` }).click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
  return '';
}

/** A drawing as a PNG file, null where the browser refuses. @param {Blob} drawing @returns {Promise<Blob | null>} */
async function painted(drawing) {
  const url = URL.createObjectURL(drawing);
  try {
    const image = new Image();
    image.src = url;
    await image.decode();
    const canvas = h('canvas', { width: image.width * fine, height: image.height * fine });
    canvas.getContext('2d')?.drawImage(image, 0, 0, canvas.width, canvas.height);
    return await new Promise((resolve) => canvas.toBlob(resolve, 'image/png'));
  } catch {
    return null;
  } finally {
    URL.revokeObjectURL(url);
  }
}

/** @param {View} view @param {Element} sheet @param {Element} ground @param {string} verdict */
export function pictureOf(view, sheet, ground, verdict) {
  const lanes = /** @type {SVGSVGElement} */ (sheet.querySelector('svg'));
  const above = /** @type {SVGSVGElement} */ (ground.querySelector('svg.picture'));
  const [, , w = 0, tall = 0] = (lanes.getAttribute('viewBox') ?? '').split(' ').map(Number);
  const beside = above.clientWidth > 0 ? Math.round(tall * 0.6) : 0;
  const page = getComputedStyle(document.documentElement);
  const ink = { color: page.color, family: page.fontFamily };
  const whole = { w: w + beside + 48, tall: tall + head + foot };
  const out = s('svg', {
    xmlns: 'http://www.w3.org/2000/svg', viewBox: `0 0 ${whole.w} ${whole.tall}`, width: whole.w, height: whole.tall,
  });
  const font = { fill: ink.color, 'font-family': ink.family };
  const line = (/** @type {string} */ words, /** @type {number} */ y, /** @type {number} */ size, weight = 400) =>
    s('text', { x: 16, y, ...font, 'font-size': size, 'font-weight': weight }, words);
  const { leg, plan } = view.main;
  const side = leg.direction === 'left' ? t('to the left') : leg.direction === 'right' ? t('to the right') : '';
  const flown = [`${cardText(plan.title)} ${side}`, cardText(plan.standard), cardText(plan.aircraft)];
  out.append(
    s('rect', { width: whole.w, height: whole.tall, fill: page.backgroundColor }),
    line(verdict, 40, 26, 700),
    line(flown.filter(Boolean).join(' · '), 68, 16),
    placed(lanes, 16, head, w, tall),
    line(shortCaution(), whole.tall - 12, 13),
  );
  if (beside > 0) out.append(placed(above, w + 32, head, beside, beside));
  return out;
}

/**
 * A drawing of the page with its styles written in.
 * @param {SVGSVGElement} svg @param {number} x @param {number} y @param {number} w @param {number} tall
 */
function placed(svg, x, y, w, tall) {
  const copy = /** @type {SVGSVGElement} */ (svg.cloneNode(true));
  const from = [svg, ...svg.querySelectorAll('*')];
  for (const [i, node] of [copy, ...copy.querySelectorAll('*')].entries()) {
    const style = getComputedStyle(/** @type {Element} */ (from[i]));
    if (style.visibility === 'hidden') node.setAttribute('visibility', 'hidden');
    if (node.matches('svg, g, defs, pattern, title, clipPath')) continue;
    for (const name of kept) node.setAttribute(name, style.getPropertyValue(name));
  }
  for (const [name, v] of Object.entries({ x, y, width: w, height: tall })) copy.setAttribute(name, String(v));
  return copy;
}
