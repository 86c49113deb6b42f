// German of recordings, of what is taken in, and of what the logbook refuses. The keys are the codes of package phrase.

/** @type {Readonly<Record<string, string>>} */
export const archive = {
  'capture.unreadable':
    '{why}; es muss eine Aufzeichnung im Format pcap oder pcapng sein, oder ein Textprotokoll mit Zeilen unter einer ' +
    'Zeile von Namen, wie sie ist oder mit gzip oder zstd gepackt',
  'capture.begins': 'die Datei beginnt mit {bytes}',
  'capture.empty': 'die Datei ist leer oder nur wenige Bytes lang',
  'capture.gzip': 'die Datei ist mit gzip gepackt, aber beschädigt',
  'capture.zstd': 'die Datei ist mit zstd gepackt, aber beschädigt',
  'capture.not-ng': 'die Datei ist keine pcapng-Datei',
  'capture.header': 'der Kopf dieser pcap-Datei ist nicht verständlich ({why})',
  'capture.link':
    'die Verbindungsart {link} ist nicht verständlich: an einer Schnittstelle für Ethernet, Loopback oder rohes IP ' +
    'aufzeichnen',
  'capture.cut': 'die Aufnahme bricht nach {packets} Paketen ab; die davor wurden gelesen',
  'capture.damaged': 'die Aufnahme ist nach {packets} Paketen beschädigt ({why}); die davor wurden gelesen',
  'capture.too-long': 'die Aufnahme enthält entpackt mehr als {most}',
  'capture.too-dense':
    'die Aufnahme enthält mehr als {most} in einer Datei von {file} oder mehr: über {times}-mal so viel',
  'recording.empty': 'Sitzung {session} hat keine Aufnahme: daraus lässt sich nichts machen',
  'recording.unknown':
    '{name} ist weder eine Sitzung in {folder} noch eine Aufnahme; einen der Ordner dort nennen, eine pcap- oder ' +
    'pcapng-Datei oder ein Textprotokoll',
  'recording.bare-folder':
    '{name} ist ein Ordner ohne Aufnahme; eine Sitzung, ihren Ordner oder eine Aufzeichnung nennen',

  'log.line': 'Zeile {line}: {why}',
  'log.column': 'Zeile {line}, Spalte {column} ({name}): {why}',
  'log.two-bytes': 'der Text hat zwei Bytes für jeden Buchstaben (UTF-16); bitte als UTF-8 speichern',
  'log.unknown':
    'das ist kein Textprotokoll: Zeilen von mindestens drei Spalten mit Zahlen, unter einer Zeile mit ihren Namen',
  'log.no-rows': 'hier stehen die Namen der Spalten, und keine Zeile mit Zahlen folgt',
  'log.no-names':
    'die Spalten haben keine Namen, und keine bekannte Zuordnung hat diese Reihenfolge; eine Zeile mit Namen davor ' +
    'setzen, oder eine Zuordnung mit --map DATEI angeben',
  'log.missing':
    'von keiner Spalte ist bekannt, dass sie {channels} enthält; halfturn grade --map propose DATEI druckt eine ' +
    'Zuordnung für diese Spalten, zum Berichtigen, Speichern und Angeben mit --map',
  'log.no-time':
    'keine Spalte enthält die Zeit; sie in einer Zuordnung nennen, oder die Zeilen je Sekunde mit --rate N angeben',
  'log.bad-time':
    '{value} ist keine Zeit; es müssen Sekunden sein, Stunden:Minuten:Sekunden, oder Datum und Uhrzeit wie ' +
    '2031-05-04T10:15:30',

  'import.size':
    '{why}; sie wird nicht importiert (halfturn sessions import --most-size und --most-ratio erlauben mehr)',
  'import.sessions':
    'die Aufzeichnung enthält mehr als {most} Sitzungen, eine neue nach jeweils {silence} Stille; sie wird nicht ' +
    'eingelesen (halfturn sessions import --most-sessions erlaubt mehr)',
  'import.no-datagrams':
    'sie enthält kein UDP-Datagramm: von {packets} Paketen sind {other} von anderer Art, {fragments} sind ' +
    'Bruchstücke, {cut} sind nicht vollständig aufgezeichnet und {malformed} sind fehlerhaft',
  'import.left-unread':
    'ausgelassene Datagramme, in denen sich nichts benoten lässt: {datagrams}, von {senders} der Absender (halfturn ' +
    'sessions import --keep-all behält sie)',
  'import.left-senders': 'ausgelassene Datagramme von Absendern nach den ersten {most}: {datagrams}',
  'import.left-stations':
    'ausgelassene Datagramme von Absendern nach den ersten {most}: {datagrams} (halfturn sessions import ' +
    '--most-stations erlaubt mehr)',
  'import.left-untimed':
    'ausgelassene Pakete, die laut einer falschen Uhr vor 1970 oder nach 2261 empfangen wurden: {packets}',
  'import.not-all-chosen': 'die Aufnahme wird nicht nach allem beurteilt, was im Flug gewählt war: {why}',
  'recording.not-as-chosen': 'die Aufnahme wird nicht nach dem beurteilt, was im Flug gewählt war: {why}',
  'import.left-because': '{note}: {why}',
  'import.no-format': 'es wurde kein bekanntes Format erkannt',
  'import.few-samples': 'es kamen zu wenige Werte: {samples} von mindestens {least}',

  'record.cannot-write':
    'es lässt sich nichts schreiben ({why}); die Aufnahme geht von selbst weiter, sobald das behoben ist',
  'record.cannot-write-in':
    'in {folder} lässt sich nichts schreiben ({why}); die Aufnahme geht von selbst weiter, sobald das behoben ist',
  'record.no-room': 'in {folder} ist kein Platz mehr; welchen schaffen, und die Aufnahme geht von selbst weiter',
  'record.may-not-write':
    'in {folder} darf nicht geschrieben werden; das erlauben, und die Aufnahme geht von selbst weiter',

  'session.unknown': 'im Flugbuch gibt es keine Sitzung {session}',
  'session.none-yet': '{why}: es enthält noch keine',
  'session.most-like': '{why}; am ähnlichsten: {sessions}',
  'session.no-grading': 'Sitzung {session} hat keine Bewertung {grading}; sie zählen ab 1',
  'session.stays': 'Sitzung {session} soll behalten werden oder geht weiter; sie bleibt',
  'session.bare-folder': 'ihr Ordner sagt weder, wann sie war, noch, was geflogen wurde',
  'logbook.empty': 'im Flugbuch steht noch keine Sitzung',
  'logbook.missing':
    'in {folder} ist kein Flugbuch: mit diesem Datenordner wurde noch nichts geflogen; Aufzeichnungen importieren ' +
    'mit halfturn sessions import, oder mit --data einen anderen wählen',
  'session.away': 'Sitzung {session} liegt in {store} und ist nicht erreichbar; später noch einmal versuchen',
  'session.taken': 'Sitzung {session} hat ein anderer Knoten übernommen; hier wurde nichts geändert',
  'session.busy':
    'Sitzung {session} wird auf einem anderen Knoten immer wieder geändert; noch einmal versuchen',
  'logbook.mending': 'das Flugbuch wird wieder geöffnet, da sein Datenträger ausfiel: einen Augenblick warten',
  'filter.date': 'das Datum ist {date}; muss Jahr-Monat-Tag sein, etwa 2031-05-04',
  'filter.after': 'after ist {after}; muss next der Antwort davor sein',

  'remark.empty': 'die Bemerkung ist leer',
  'remark.too-long': 'die Bemerkung ist {letters} Zeichen lang; darf höchstens {most} lang sein',
  'remark.leg': 'Teil {leg} gibt es nicht: Teile zählen ab 1, 0 ist die ganze Sitzung',
  'remark.moment': 'den Moment {moment} gibt es nicht: gezählt wird in Sekunden ab Beginn der Aufnahme',
  'remark.full': 'Sitzung {session} hat {remarks} Bemerkungen, mehr werden zu einer nicht behalten',
  'remark.no-legs': 'Sitzung {session} hat keine Teile; eine Bemerkung zur ganzen Sitzung steht bei Teil 0',
  'remark.no-leg': 'Sitzung {session} hat keinen Teil {leg}; ihr letzter ist Teil {last}',
  'remark.id': 'notes.json enthält eine Bemerkung mit der Nummer {id}; sie zählen ab 1',
  'remark.twice': 'notes.json enthält zwei Bemerkungen mit der Nummer {id}; einer davon eine andere geben',
  'remark.no-mark': 'die Sitzung {session} hat keine Markierung {mark}',
  'remark.mark-worded':
    'die Markierung {mark} hat ihre Worte schon; stattdessen eine Bemerkung zu diesem Augenblick hinzufügen',

  'differs.leg': 'Teil {leg}, {label}: {is}, war {was}',
  'verdict.met': 'erfüllt',
  'verdict.near': 'knapp',
  'verdict.missed': 'verfehlt',
  'verdict.not-measured': 'nicht gemessen',
  'differs.of-leg': 'Teil',
  'differs.of-maneuver': 'Manöver',
  'differs.of-standard': 'Standard',
  'differs.of-outcome': 'Ausgang',
  'differs.of-verdict': 'Urteil',
  'differs.of-score': 'Punkte',
  'differs.of-grade': 'Note',
  'outcome.finished': 'beendet',
  'outcome.broken-off': 'abgebrochen',
  'outcome.knock-off': 'aus Sicherheit beendet',
  'grade.unable': 'nicht geschafft',
  'grade.fair': 'ausreichend',
  'grade.good': 'gut',
  'grade.excellent': 'sehr gut',
  'differs.found': 'gefunden',
  'differs.not-found': 'nicht gefunden',
  'differs.not-judged': 'nicht beurteilt',
  'differs.none': 'keine',
  'differs.judged': '{verdict}, {value}',
  'differs.judged-in': '{verdict}, {value} ({wanted})',
  'differs.no-value': '{verdict}, kein Wert',
  'differs.no-value-in': '{verdict}, kein Wert ({wanted})',

  'choice.maneuver': 'es gibt keine Manöverkarte {name}; es gibt: {names}',
  'choice.standard': 'es gibt keinen Standard {name}; es gibt: {names}',
  'choice.aircraft': 'es gibt keine Flugzeugkarte {name}; es gibt: {names}',

  'path.no-aircraft': 'es ist keine Flugzeugkarte gewählt',
  'path.apex': 'die Scheitelfahrt ist {apex}; muss größer als 0 und kleiner als die Anfangsfahrt von {entry} sein',
  'path.apex-stall':
    'die Scheitelfahrt {apex} ist weniger als die Hälfte der Überziehfahrt von {stall}: die Flugzeugkarte prüfen',
  'path.too-slow':
    'die Fahrt fällt sogar mit der Nase bei {nose} unter die Scheitelfahrt von {apex}: es braucht mehr Leistung, ' +
    'weniger Querlage oder eine kleinere Scheitelfahrt',
  'path.nose-limit': 'eine Nase über {nose} wird nicht betrachtet',
  'path.apex-far':
    'die Scheitelfahrt {apex} ist unerreichbar: mit der Nase bei {nose} fällt die Fahrt nur auf {least}; {why}',
  'path.no-depth': 'mit keiner tiefsten Nase endet die Kurve auf der Anfangshöhe',
  'path.stalls': 'überzieht bei {turn} der Kurve: {airspeed} bei {load}, Überziehfahrt dort {stall}',
  'path.load': 'das Lastvielfache {load} bei {turn} der Kurve liegt über der Grenze von {most}',
  'path.entry-speed': 'die Anfangsfahrt ist {airspeed}; muss zwischen {least} und {most} liegen',
  'path.altitude': 'die Anfangshöhe ist {altitude}; muss zwischen {least} und {most} liegen',
  'path.nose': 'die Nase ist bei {nose}; muss zwischen \u221275 und 75 liegen',
  'path.stall-speed':
    'die Überziehfahrt ist {stall}; muss 0 (unbekannt) oder kleiner als die Anfangsfahrt von {entry} sein',
  'path.glide':
    'die Gleitzahl ist {ratio} bei {airspeed}; muss zwischen 0 (unbekannt) und 80 liegen, bei einer Fahrt zwischen 0 ' +
    '(unbekannt) und {most}',
  'path.cannot':
    'nicht fliegbar über {turn} der Kurve hinaus: Nase bei {nose}, noch {airspeed}: der Auftrieb kann dort nicht ' +
    'folgen',
};
