// German words of what the server refuses, and of what it says of a stream or a recording. # stands for a
// number, or for what is in quotes.

/** @type {Readonly<Record<string, string>>} */
export const told = {
  // a recording without anything to grade
  'no known format was recognized': 'es wurde kein bekanntes Format erkannt',
  'too few samples came': 'es kamen zu wenige Werte',
  // why a leg ended, or counts for nothing
  // a recording that fails
  'recording goes on by itself once that is mended': 'die Aufnahme geht von selbst weiter, sobald das behoben ist',
  // recordings and captures
  'those before were read': 'die davor wurden gelesen',
  'the file is empty or only a few bytes long': 'die Datei ist leer oder nur wenige Bytes lang',
  'the file is gzipped but damaged': 'die Datei ist mit gzip gepackt, aber beschädigt',
  'the file is compressed by zstd but damaged': 'die Datei ist mit zstd gepackt, aber beschädigt',
  'the file is no pcapng file': 'die Datei ist keine pcapng-Datei',
  'expected a pcap or pcapng capture file, as it is or compressed by gzip or zstd':
    'erwartet wird eine Aufzeichnung im Format pcap oder pcapng, wie sie ist oder mit gzip oder zstd gepackt',
  'datagrams left out because nothing in them can be graded':
    'ausgelassene Datagramme, in denen sich nichts benoten lässt',
  'it is not taken in (halfturn sessions import --most-size and --most-ratio allow more)':
    'sie wird nicht eingelesen (halfturn sessions import --most-size und --most-ratio erlauben mehr)',
  'of this session there is no recording; only its grades were kept':
    'von dieser Sitzung gibt es keine Aufnahme; nur ihre Noten wurden behalten',
  // sessions and replays
  'the logbook holds no session yet': 'im Logbuch steht noch keine Sitzung',
  'its folder tells neither when it was nor what was flown':
    'ihr Ordner sagt weder, wann sie war, noch, was geflogen wurde',
  'the logbook is being opened again, since its disk failed: wait a moment':
    'das Logbuch wird wieder geöffnet, da sein Datenträger ausfiel: einen Augenblick warten',
  'the remark has no words': 'die Bemerkung ist leer',
  // what another grading says otherwise
  outcome: 'Ausgang',
  verdict: 'Urteil',
  found: 'gefunden',
  'not found': 'nicht gefunden',
  'not judged': 'nicht beurteilt',
  'no value': 'kein Wert',
  none: 'keine',
  finished: 'beendet',
  'broken-off': 'abgebrochen',
  'knock-off': 'aus Sicherheit beendet',
  'not-measured': 'nicht gemessen',
  // stations, choices and the ground line
  'there are': 'es gibt',
  // why there is no reference path
  'no depth of the nose-down part ends the program at its entry height':
    'mit keiner tiefsten Nase endet die Kurve auf der Anfangshöhe',
};
