// The German words of the set-up page.

/** @type {Readonly<Record<string, string>>} */
export const setup = {
  'What arrives': 'Was ankommt',
  'How a simulator is set up': 'Wie ein Simulator eingerichtet wird',
  'HOST stands for the machine Halfturn runs on: 127.0.0.1 when it is the simulator’s own.':
    'HOST steht für den Rechner, auf dem Halfturn läuft: 127.0.0.1, wenn es der des Simulators ist.',
  Channels: 'Kanäle',
  Channel: 'Kanal',
  Value: 'Wert',
  Age: 'Alter',
  'For the card': 'Für die Karte',
  'Channels, and what the card {name} needs of them': 'Kanäle, und was die Karte {name} davon braucht',
  'All that the card {name} needs is there.': 'Alles, was die Karte {name} braucht, ist da.',
  ['Nothing is heard yet. Let the simulator send to {where}, as the guides tell; this page shows it as soon ' +
    'as it comes.']:
    'Noch ist nichts zu hören. Den Simulator an {where} senden lassen, wie in den Anleitungen beschrieben; diese ' +
    'Seite zeigt es, sobald es kommt.',
  'One simulator is heard on {where}.': 'Ein Simulator ist auf {where} zu hören.',
  '{n} simulators are heard on {where}.': '{n} Simulatoren sind auf {where} zu hören.',
  ['Datagrams from {address} are refused: {senders} senders are followed already, and max-stations in the ' +
    'configuration allows no more. Stop a sender that is not needed, or raise it.']:
    'Datagramme von {address} werden abgewiesen: {senders} Sender werden schon verfolgt, und max-stations in der ' +
    'Konfiguration erlaubt nicht mehr. Einen Sender beenden, der nicht gebraucht wird, oder den Wert erhöhen.',
  'Halfturn does not answer. Is it still running? This page comes back by itself when it is.':
    'Halfturn antwortet nicht. Läuft es noch? Diese Seite kommt dann von selbst zurück.',
  'Port: {words}.': 'Port: {words}.',
  'What to expect: {words}': 'Was zu erwarten ist: {words}',
  'Files: {files}': 'Dateien: {files}',
  'sent twice': 'doppelt',
  late: 'zu spät',
  empty: 'leer',
  'of an unknown format': 'in unbekanntem Format',
  'without labels': 'ohne Spaltennamen',
  'without a channel': 'ohne Kanal',
  malformed: 'fehlerhaft',
  'with a value that cannot be': 'mit einem Wert, der nicht sein kann',
  'cut short': 'abgeschnitten',
  'with a wrong checksum': 'mit falscher Prüfsumme',
  'not text': 'kein Text',
  'too long': 'zu lang',
  'of another format': 'in anderem Format',
  other: 'anderes',
  'Check on this page, or with: ': 'Auf dieser Seite prüfen oder mit: ',
  'Format not recognized, {datagrams} datagrams': 'Format nicht erkannt, {datagrams} Datagramme',
  '{format}, {sure}: {share} % of {datagrams} datagrams read':
    '{format}, {sure}: {share} % von {datagrams} Datagrammen gelesen',
  '{rate} samples a second, jitter {jitter} ms, last datagram {age} s ago, timed by the simulator’s clock':
    '{rate} Messungen je Sekunde, Schwankung {jitter} ms, letztes Datagramm vor {age} s, Zeit nach der Uhr des ' +
    'Simulators',
  '{rate} samples a second, jitter {jitter} ms, last datagram {age} s ago, timed by the time of receipt':
    '{rate} Messungen je Sekunde, Schwankung {jitter} ms, letztes Datagramm vor {age} s, Zeit nach dem Empfang',
  'Dropped: {parts}': 'Verworfen: {parts}',
  no: 'nein',
  yes: 'ja',
  'ball widths': 'Kugelbreiten',
  sent: 'gesendet',
  'worked out here': 'hier berechnet',
  missing: 'fehlt',
  'sent; not needed': 'gesendet; nicht gebraucht',
  '{state}; nothing works without': '{state}; ohne ihn geht nichts',
  '{state}; for {checks}': '{state}; für {checks}',
  '; {n} values out of range': '; {n} Werte außerhalb des Möglichen',
  live: 'live',
  paused: 'angehalten',
  silent: 'still',
  gone: 'weg',
  replaying: 'Wiedergabe',
  certain: 'sicher',
  likely: 'wahrscheinlich',
  doubtful: 'zweifelhaft',
  'not recognized': 'nicht erkannt',
  // the network
  'A tablet beside it': 'Ein Tablet daneben',
  'Connect': 'Verbinden',
  'The code that stands on the page Set-up at the simulator':
    'Der Code, der am Simulator auf der Seite Einrichtung steht',
  ['On the tablet or phone, point the camera at the picture, or type the address. It must be in the same ' +
    'network.']:
    'Am Tablet oder Telefon die Kamera auf das Bild richten oder die Adresse eintippen. Es muss im selben Netz sein.',
  'The panel can stand on a tablet or a phone beside the simulator, in the same network.':
    'Die Anzeige kann auf einem Tablet oder Telefon neben dem Simulator stehen, im selben Netz.',
  'It asks for this code, once: ': 'Es fragt einmal nach diesem Code: ',
  'Close it again': 'Wieder schließen',
  'Yes, open it to the network': 'Ja, ins Netz öffnen',
  'Use a tablet or a phone': 'Tablet oder Telefon verwenden',
  'The configuration opens the pages to the network. Do so only in a network you trust.':
    'Die Konfiguration öffnet die Seiten ins Netz. Nur in einem Netz, dem man vertraut.',
  ['Everybody in your network who has the code can then see and steer this page. Open it only in a network you ' +
    'trust.']:
    'Wer im Netz den Code hat, kann dann diese Seite sehen und bedienen. Nur in einem Netz öffnen, dem man vertraut.',
  'Buttons and switches': 'Knöpfe und Schalter',
  'Copy the request: {act}': 'Anfrage kopieren: {act}',
  'Copy the line: {act}': 'Zeile kopieren: {act}',
  'A box with buttons and switches sends the request, or the line to the UDP port:':
    'Ein Kasten mit Knöpfen und Schaltern sendet die Anfrage, oder die Zeile an den UDP-Port:',
  'Where several simulators send, the request ends in ?station=NAME and the line in NAME.':
    'Wo mehrere Simulatoren senden, endet die Anfrage mit ?station=NAME und die Zeile mit NAME.',
  'Choose aircraft and maneuver, or measure yours': 'Flugzeug und Manöver wählen, oder das eigene messen',
  'QR code of {address}': 'QR-Code von {address}',
};
