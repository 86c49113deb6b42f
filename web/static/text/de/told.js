// German words of what the server refuses, and of what it says of a stream or a recording. # stands for a
// number, or for what is in quotes.

/** @type {Readonly<Record<string, string>>} */
export const told = {
  // a recording without anything to grade
  'no known format was recognized': 'es wurde kein bekanntes Format erkannt',
  'too few samples came': 'es kamen zu wenige Werte',
  '# of at least #': '# von mindestens #',
  // why a leg ended, or counts for nothing
  // a recording that fails
  'no room is left in #; make some, and recording goes on by itself':
    'in # ist kein Platz mehr; welchen schaffen, und die Aufnahme geht von selbst weiter',
  'nothing may be written in #; make it writable, and recording goes on by itself':
    'in # darf nicht geschrieben werden; das erlauben, und die Aufnahme geht von selbst weiter',
  'nothing can be written in # (#)': 'in # lässt sich nichts schreiben (#)',
  'nothing can be written (#)': 'es lässt sich nichts schreiben (#)',
  'recording goes on by itself once that is mended': 'die Aufnahme geht von selbst weiter, sobald das behoben ist',
  // recordings and captures
  'the recording is cut off after # packets': 'die Aufnahme bricht nach # Paketen ab',
  'the recording is damaged after # packets (#)': 'die Aufnahme ist nach # Paketen beschädigt (#)',
  'those before were read': 'die davor wurden gelesen',
  'the file begins with #': 'die Datei beginnt mit #',
  'the file is empty or only a few bytes long': 'die Datei ist leer oder nur wenige Bytes lang',
  'the file is gzipped but damaged': 'die Datei ist mit gzip gepackt, aber beschädigt',
  'the file is compressed by zstd but damaged': 'die Datei ist mit zstd gepackt, aber beschädigt',
  'the file is no pcapng file': 'die Datei ist keine pcapng-Datei',
  'the header of this pcap file is not understood (#)': 'der Kopf dieser pcap-Datei ist nicht verständlich (#)',
  'link type # is not understood': 'die Verbindungsart # ist nicht verständlich',
  'record on an Ethernet, loopback or raw IP interface':
    'an einer Schnittstelle für Ethernet, Loopback oder rohes IP aufzeichnen',
  'expected a pcap or pcapng capture file, as it is or compressed by gzip or zstd':
    'erwartet wird eine Aufzeichnung im Format pcap oder pcapng, wie sie ist oder mit gzip oder zstd gepackt',
  '# is a folder without a recording; name a session, its folder, or one capture file':
    '# ist ein Ordner ohne Aufnahme; eine Sitzung, ihren Ordner oder eine Aufzeichnung nennen',
  '# is neither a session in # nor a recording; name one of the folders there, or a pcap or pcapng file':
    '# ist weder eine Sitzung in # noch eine Aufnahme; einen der Ordner dort nennen, oder eine pcap- oder ' +
    'pcapng-Datei',
  'datagrams left out because nothing in them can be graded':
    'ausgelassene Datagramme, in denen sich nichts benoten lässt',
  '#, from # of the senders (halfturn sessions import --keep-all keeps them)':
    '#, von # der Absender (halfturn sessions import --keep-all behält sie)',
  'datagrams left out of senders beyond the first #: #': 'ausgelassene Datagramme von Absendern nach den ersten #: #',
  'datagrams left out of senders beyond the first #: # (halfturn sessions import --most-stations allows more)':
    'ausgelassene Datagramme von Absendern nach den ersten #: # (halfturn sessions import --most-stations ' +
    'erlaubt mehr)',
  'it is not taken in (halfturn sessions import --most-size and --most-ratio allow more)':
    'sie wird nicht eingelesen (halfturn sessions import --most-size und --most-ratio erlauben mehr)',
  'it is not taken in (halfturn sessions import --most-sessions allows more)':
    'sie wird nicht eingelesen (halfturn sessions import --most-sessions erlaubt mehr)',
  'packets left out because a wrong clock says they were received before # or after #: #':
    'ausgelassene Pakete, die laut einer falschen Uhr vor # oder nach # empfangen wurden: #',
  'the capture holds more than # sessions, a new one after each # s of silence':
    'die Aufzeichnung enthält mehr als # Sitzungen, eine neue nach jeweils # s Stille',
  'the recording holds more than # MB in a file of # MB or more: over # times as much':
    'die Aufnahme enthält mehr als # MB in einer Datei von # MB oder mehr: über #-mal so viel',
  'the recording holds more than # MB uncompressed': 'die Aufnahme enthält entpackt mehr als # MB',
  'the recording is not judged by all that was chosen while it was flown: #':
    'die Aufnahme wird nicht nach allem beurteilt, was im Flug gewählt war: #',
  ['there is no UDP datagram in it: of # packets # are of another kind, # are fragments, # were not recorded ' +
    'whole and # are malformed']:
    'sie enthält kein UDP-Datagramm: von # Paketen sind # von anderer Art, # sind Bruchstücke, # sind nicht ' +
    'vollständig aufgezeichnet und # sind fehlerhaft',
  'of this session there is no recording; only its grades were kept':
    'von dieser Sitzung gibt es keine Aufnahme; nur ihre Noten wurden behalten',
  'session # has no recording: nothing can be made of it':
    'Sitzung # hat keine Aufnahme: daraus lässt sich nichts machen',
  // sessions and replays
  'there is no session # in the logbook': 'im Flugbuch gibt es keine Sitzung #',
  'session # has no grading #; they count from #': 'Sitzung # hat keine Bewertung #; sie zählen ab #',
  'session # was marked to be kept, or goes on; it stays':
    'Sitzung # soll behalten werden oder geht weiter; sie bleibt',
  'leg # is none: legs count from #, # is the session as a whole':
    'Teil # gibt es nicht: Teile zählen ab #, # ist die ganze Sitzung',
  'the moment # is none: it counts in seconds from the beginning of the recording':
    'den Moment # gibt es nicht: gezählt wird in Sekunden ab Beginn der Aufnahme',
  'session # has # remarks, as many as are kept with one':
    'Sitzung # hat # Bemerkungen, mehr werden zu einer nicht behalten',
  'session # has no leg #; its last one is leg #': 'Sitzung # hat keinen Teil #; ihr letzter ist Teil #',
  'session # has no legs; a remark on the session as a whole is on leg #':
    'Sitzung # hat keine Teile; eine Bemerkung zur ganzen Sitzung steht bei Teil #',
  'the logbook holds no session yet': 'im Logbuch steht noch keine Sitzung',
  'its folder tells neither when it was nor what was flown':
    'ihr Ordner sagt weder, wann sie war, noch, was geflogen wurde',
  'notes.json holds a remark with the id #; they count from #':
    'notes.json enthält eine Bemerkung mit der Nummer #; sie zählen ab #',
  'notes.json holds two remarks with the id #; give one of them another':
    'notes.json enthält zwei Bemerkungen mit der Nummer #; einer davon eine andere geben',
  'the logbook is being opened again, since its disk failed: wait a moment':
    'das Logbuch wird wieder geöffnet, da sein Datenträger ausfiel: einen Augenblick warten',
  'the remark has no words': 'die Bemerkung ist leer',
  'the remark is # letters long; allowed: #': 'die Bemerkung ist # Zeichen lang; erlaubt: #',
  'the date is #; wanted: year-month-day, such as #-#-#': 'das Datum ist #; gewünscht: Jahr-Monat-Tag, etwa #-#-#',
  'after is #; wanted: next of the answer before': 'after ist #; gewünscht: next der Antwort davor',
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
  '# to #': '# bis #',
  '# to #°': '# bis #°',
  '# to #%': '# bis #%',
  '# to # balls': '# bis # Kugelbreiten',
  '# balls': '# Kugelbreiten',
  '# to # legs': '# bis # Teile',
  '# legs': '# Teile',
  '# to # g': '# bis # g',
  '# to # s': '# bis # s',
  '# to #°/s': '# bis #°/s',
  // stations, choices and the ground line
  'there is no maneuver card #': 'es gibt keine Manöverkarte #',
  'there is no aircraft card #': 'es gibt keine Flugzeugkarte #',
  'there is no standard #': 'es gibt keinen Maßstab #',
  'there are': 'es gibt',
  // why there is no reference path
  'airspeed falls under the apex of # even with the nose at #°: it needs more power, less bank or a lower apex':
    'die Fahrt fällt sogar mit der Nase bei #° unter die Scheitelfahrt von #: es braucht mehr Leistung, weniger ' +
    'Querlage oder eine kleinere Scheitelfahrt',
  'apex # is out of reach: with the nose at #° airspeed falls to # only':
    'die Scheitelfahrt # ist unerreichbar: mit der Nase bei #° fällt die Fahrt nur auf #',
  'a nose above #° is not looked at': 'eine Nase über #° wird nicht betrachtet',
  'apex airspeed # is under half the stall speed of #: check the aircraft card':
    'die Scheitelfahrt # ist weniger als die Hälfte der Überziehfahrt von #: die Flugzeugkarte prüfen',
  'apex airspeed #: want more than # and less than the entry airspeed of #':
    'Scheitelfahrt #: gewünscht mehr als # und weniger als die Anfangsfahrt von #',
  'cannot be flown past #° of turn: nose at #°, # left: the lift there cannot follow the program':
    'nicht fliegbar über #° der Kurve hinaus: Nase bei #°, noch #: der Auftrieb kann dort nicht folgen',
  'no depth of the nose-down part ends the program at its entry height':
    'mit keiner tiefsten Nase endet die Kurve auf der Anfangshöhe',
  'entry airspeed #: want # to #': 'Anfangsfahrt #: gewünscht # bis #',
  'entry altitude #: want # to #': 'Anfangshöhe #: gewünscht # bis #',
  'nose #°: want # to #': 'Nase #°: gewünscht # bis #',
  'stall speed #: want # (unknown) to less than the entry airspeed of #':
    'Überziehfahrt #: gewünscht # (unbekannt) bis weniger als die Anfangsfahrt von #',
  'lift-to-drag ratio # at #: want # (unknown) to # at # (unknown) to #':
    'Gleitzahl # bei #: gewünscht # (unbekannt) bis # bei # (unbekannt) bis #',
  'load factor # g at #° of turn is over the limit of # g':
    'das Lastvielfache # g bei #° der Kurve liegt über der Grenze von # g',
  'stalls at #° of turn: # at # g, stall speed there #':
    'überzieht bei #° der Kurve: # bei # g, Überziehfahrt dort #',
};
