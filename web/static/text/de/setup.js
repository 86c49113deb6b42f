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
  ['Datagrams from {address} are refused: {seats} senders are followed already, and max-stations in the ' +
    'configuration allows no more. Stop a sender that is not needed, or raise it.']:
    'Datagramme von {address} werden abgewiesen: {seats} Sender haben schon einen Platz, und max-stations in der ' +
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
  'the hard deck': 'die Mindesthöhe',
  'text with labels': 'Text mit Spaltennamen',
  'text columns': 'Textspalten',
  'text pairs': 'Text aus Paaren',
  'DATA rows': 'DATA-Zeilen',
  'JSON lines': 'JSON-Zeilen',
  'RREF replies': 'RREF-Antworten',
  'XGPS/XATT text': 'XGPS/XATT-Text',
  'generic binary': 'generic, binär',
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
  balls: 'Kugelbreiten',
  sent: 'gesendet',
  'worked out here': 'hier berechnet',
  missing: 'fehlt',
  'sent; not needed': 'gesendet; nicht gebraucht',
  '{state}; nothing works without': '{state}; ohne ihn geht nichts',
  '{state}; for {checks}': '{state}; für {checks}',
  'For {channels}: {words}': 'Für {channels}: {words}',
  '; {n} values not believed': '; {n} Werte nicht geglaubt',
  live: 'live',
  paused: 'angehalten',
  silent: 'still',
  gone: 'weg',
  replaying: 'Wiedergabe',
  certain: 'sicher',
  likely: 'wahrscheinlich',
  doubtful: 'zweifelhaft',
  'not recognized': 'nicht erkannt',
  'bank is turned round': 'die Querlage ist umgedreht',
  'pitch is turned round': 'die Längsneigung ist umgedreht',
  'bank and pitch are turned round': 'Querlage und Längsneigung sind umgedreht',
  // what is to be switched on
  "in the simulator's settings, Data Output, tick the box of network output for row {row}.":
    'in den Einstellungen des Simulators unter Data Output das Kästchen der Netzausgabe für Zeile {row} ankreuzen.',
  ["add the line <property> {name} </property> to the simulator's output file, or use " +
    "simulators/jsbsim/halfturn.xml, which has it."]:
    'die Zeile <property> {name} </property> in die Ausgabedatei des Simulators einfügen oder ' +
    'simulators/jsbsim/halfturn.xml verwenden, wo sie steht.',
  'let the bridge add the member "{name}" ({unit}) to every line.':
    'die Brücke das Feld "{name}" ({unit}) zu jeder Zeile senden lassen.',
  "in the simulator's settings, Data Output, Dataref Read/Write, send {name} too.":
    'in den Einstellungen des Simulators unter Data Output, Dataref Read/Write auch {name} senden.',
  ['Halfturn asked for {name} and got no value; load another aircraft, or switch on row {row} of the data ' +
    'output instead.']:
    'Halfturn hat nach {name} gefragt und keinen Wert erhalten; ein anderes Flugzeug laden oder stattdessen ' +
    'Zeile {row} der Datenausgabe einschalten.',
  ['what arrives ({format}) has no place for that, or the program that sends it leaves that out; use a bridge ' +
    'that sends JSON lines (halfturn simulators copy DIR writes one out).']:
    'was ankommt ({format}), hat dafür keinen Platz, oder das sendende Programm lässt es weg; eine Brücke ' +
    'verwenden, die JSON-Zeilen sendet (halfturn simulators copy DIR schreibt eine heraus).',
  ['start the simulator with the protocol file that Halfturn brings (halfturn simulators copy DIR writes it ' +
    'out), which sends it; or add it to your own file and map.']:
    'den Simulator mit der Protokolldatei von Halfturn starten (halfturn simulators copy DIR schreibt sie ' +
    'heraus), die es sendet; oder es in die eigene Datei und Zuordnung aufnehmen.',
  ["these replies have no place for that. Start Halfturn with --subscribe and the simulator's address: it " +
    "asks for all it needs."]:
    'diese Antworten haben dafür keinen Platz. Halfturn mit --subscribe und der Adresse des Simulators starten: ' +
    'es fragt nach allem, was es braucht.',
  ['this stream has no place for that. Start the simulator with --generic and the protocol file that Halfturn ' +
    'brings (halfturn simulators copy DIR).']:
    'dieser Strom hat dafür keinen Platz. Den Simulator mit --generic und der Protokolldatei von Halfturn ' +
    'starten (halfturn simulators copy DIR).',
  'Raise the rate to # or # a second': 'Die Rate auf # oder # je Sekunde erhöhen',
  'in the program that sends': 'im sendenden Programm',
  "in the simulator's settings, Data Output, move the slider of the network rate (packets a second)":
    'in den Einstellungen des Simulators unter Data Output den Regler der Netzrate (Pakete je Sekunde) verschieben',
  'rate under [subscribe] in the configuration': 'rate unter [subscribe] in der Konfiguration',
  'the simulator sends no faster than it draws pictures':
    'der Simulator sendet nicht schneller, als er Bilder zeichnet',
  "the attribute rate of <output> in the simulator's output file":
    'das Attribut rate von <output> in der Ausgabedatei des Simulators',
  ["the number after socket,out, in the simulator's --generic or --native-fdm option; it sends no faster than " +
    "it draws pictures"]:
    'die Zahl nach socket,out, in der Option --generic oder --native-fdm des Simulators; er sendet nicht ' +
    'schneller, als er Bilder zeichnet',
  ['This comes too seldom for checkpoints to be judged finely, and many such programs cannot send faster; a ' +
    'bridge that sends JSON lines can (halfturn simulators copy DIR writes one out).']:
    'Das kommt zu selten, um Kontrollpunkte fein zu beurteilen, und viele solche Programme können nicht ' +
    'schneller senden; eine Brücke mit JSON-Zeilen kann es (halfturn simulators copy DIR schreibt eine heraus).',
  'Nothing comes any more. Is the simulator running, and is its output still switched on?':
    'Es kommt nichts mehr. Läuft der Simulator, und ist seine Ausgabe noch eingeschaltet?',
  'The simulator is paused. Let it run.': 'Der Simulator ist angehalten. Laufen lassen.',
  'Only # samples a second come': 'Nur # Messungen je Sekunde kommen',
  'too few to grade': 'zu wenige zum Bewerten',
  'Let the simulator send at least # a second, better #':
    'Den Simulator mindestens # je Sekunde senden lassen, besser #',
  // channels
  time: 'Zeit',
  heading: 'Kurs',
  nose: 'Nase',
  bank: 'Querlage',
  airspeed: 'Fahrt',
  'true airspeed': 'wahre Fahrt',
  'ground speed': 'Geschwindigkeit über Grund',
  track: 'Kurs über Grund',
  'vertical speed': 'Steigrate',
  altitude: 'Höhe',
  'height above ground': 'Höhe über Grund',
  latitude: 'Breite',
  longitude: 'Länge',
  'angle of attack': 'Anstellwinkel',
  sideslip: 'Schiebewinkel',
  ball: 'Kugel',
  'load factor': 'Lastvielfaches',
  'lateral load factor': 'seitliches Lastvielfaches',
  'axial load factor': 'Lastvielfaches längs',
  'roll rate': 'Rollrate',
  'pitch rate': 'Nickrate',
  'yaw rate': 'Gierrate',
  throttle: 'Gashebel',
  rpm: 'Drehzahl',
  torque: 'Drehmoment',
  elevator: 'Höhenruder',
  aileron: 'Querruder',
  rudder: 'Seitenruder',
  'stall warning': 'Überziehwarnung',
  'on ground': 'am Boden',
};
