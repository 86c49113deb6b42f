// German words of the debrief: verdict, lanes, views from outside, sharing.

/** @type {Readonly<Record<string, string>>} */
export const debrief = {
  'Replay on the panel': 'In der Anzeige abspielen',
  '{met} of {of} within limits': '{met} von {of} innerhalb der Grenzen',
  '{n} in all': '{n} insgesamt',
  '{n} more, all met': '{n} weitere, alle erfüllt',
  '{n} more, not measured': '{n} weitere, nicht gemessen',
  '{n} more: {met} met, {blank} not measured': '{n} weitere: {met} erfüllt, {blank} nicht gemessen',
  'All checks, in the order of the turn': 'Alle Prüfpunkte in der Reihenfolge der Kurve',
  'Recover to level flight first. Then look at what led to it.':
    'Zuerst in den Geradeausflug zurück. Dann ansehen, was dazu geführt hat.',
  'Lower the nose first, then level the wings, then power. Begin the next one at entry speed, pull less.':
    'Zuerst Nase tief, dann Flügel gerade, dann Leistung. Die nächste mit Anfangsfahrt beginnen, weniger ziehen.',
  'Level the wings and climb. Begin the next one higher.': 'Flügel gerade und steigen. Die nächste höher beginnen.',
  'Power back, level the wings, then raise the nose gently. Let the nose fall less next time.':
    'Leistung heraus, Flügel gerade, dann die Nase sanft heben. Die Nase nächstes Mal weniger fallen lassen.',
  'Ease the pull. Roll level before pulling out next time.':
    'Nachlassen. Nächstes Mal vor dem Abfangen die Flügel gerade nehmen.',
  'Ease the pull and roll level. Hold the bank at the limit next time.':
    'Nachlassen und Flügel gerade. Die Querlage nächstes Mal an der Grenze halten.',
  Lanes: 'Spuren',
  'Lanes, at most {n} at a time': 'Spuren, höchstens {n} zugleich',
  '{n} lanes shown': '{n} Spuren zu sehen',
  'Load factor': 'Lastvielfaches',
  'Roll rate': 'Rollrate',
  Controls: 'Steuer',
  'Energy height from {from}° to {to}°: {flown}': 'Energiehöhe von {from}° bis {to}°: {flown}',
  'Energy height from {from}° to {to}°: {flown}, on the reference path {path}':
    'Energiehöhe von {from}° bis {to}°: {flown}, auf der Bezugsbahn {path}',
  'Energy height': 'Energiehöhe',
  Energy: 'Energie',
  elevator: 'Höhenruder',
  aileron: 'Querruder',
  rudder: 'Seitenruder',
  throttle: 'Gashebel',
  'Seen from': 'Gesehen von',
  'From above': 'Von oben',
  'From behind': 'Von hinten',
  'From the side': 'Von der Seite',
  'Dashed: the ideal.': 'Gestrichelt: das Ideal.',
  'Dashed: the ideal, at the same turn angle. Heights to scale; the ground is drawn under the lowest point.':
    'Gestrichelt: das Ideal beim selben Kurvenwinkel. Höhen maßstäblich; der Boden ist unter dem tiefsten Punkt '
    + 'gezeichnet.',
  'Heights to scale; the ground is drawn under the lowest point.':
    'Höhen maßstäblich; der Boden ist unter dem tiefsten Punkt gezeichnet.',
  'The stream has neither a position nor heading and speed: there is no way to show.':
    'Der Datenstrom hat weder Position noch Kurs und Fahrt: Es gibt keinen Weg zu zeigen.',
  horizon: 'Horizont',
  'The leg from behind': 'Der Teil von hinten',
  'The leg from the side': 'Der Teil von der Seite',
  '{name}, {turn}° turned': '{name}, {turn}° gedreht',
  'bank {bank}, nose {nose}, height {height}': 'Querlage {bank}, Nase {nose}, Höhe {height}',
  'flown: {what}': 'geflogen: {what}',
  'ideal: {what}': 'Ideal: {what}',
  'Share and export': 'Teilen und ausgeben',
  'to share': 'zum Teilen',
  'one file (HTML)': 'eine Datei (HTML)',
  'one page (PDF)': 'eine Seite (PDF)',
  'Picture (PNG)': 'Bild (PNG)',
  'This browser cannot make a PNG file of it: take the SVG file.':
    'Dieser Browser kann daraus keine PNG-Datei machen: die SVG-Datei nehmen.',
  '{place} from the start': '{place} nach Beginn',
  'Picture (SVG)': 'Bild (SVG)',
  'with the student’s name, the station and the remarks': 'mit Namen des Schülers, Station und Bemerkungen',
  'Another aircraft or standard': 'Anderes Flugzeug oder anderer Maßstab',
  'The first grade stays; the new one is listed beside it.':
    'Die erste Bewertung bleibt; die neue steht daneben.',
};
