// German of what is to be changed in the simulator or the program that sends. The keys are the codes of package phrase.

const rate = 'Die Rate auf 30 oder 60 je Sekunde erhöhen';

/** @type {Readonly<Record<string, string>>} */
export const changes = {
  'need.hard-deck': 'die Mindesthöhe',
  'setup.for': 'Für {channels}: {setting}',
  'setup.row':
    'in den Einstellungen des Simulators unter Data Output das Kästchen der Netzausgabe für Zeile {row} ankreuzen.',
  'setup.property':
    'die Zeile <property> {name} </property> in die Ausgabedatei des Simulators einfügen oder ' +
    'simulators/jsbsim/halfturn.xml verwenden, wo sie steht.',
  'setup.protocol':
    'den Simulator mit der Protokolldatei von Halfturn starten (halfturn simulators copy DIR schreibt sie ' +
    'heraus), die es sendet; oder es in die eigene Datei und Zuordnung aufnehmen.',
  'setup.member': 'die Brücke das Feld {name} ({unit}) zu jeder Zeile senden lassen.',
  'setup.dataref': 'in den Einstellungen des Simulators unter Data Output, Dataref Read/Write auch {name} senden.',
  'setup.asked':
    'Halfturn hat nach {name} gefragt und keinen Wert erhalten; ein anderes Flugzeug laden oder stattdessen ' +
    'Zeile {row} der Datenausgabe einschalten.',
  'setup.replies':
    'diese Antworten haben dafür keinen Platz. Halfturn mit --subscribe und der Adresse des Simulators starten: ' +
    'es fragt nach allem, was es braucht.',
  'setup.native':
    'dieser Strom hat dafür keinen Platz. Den Simulator mit --generic und der Protokolldatei von Halfturn ' +
    'starten (halfturn simulators copy DIR).',
  'setup.format':
    'was ankommt ({format}), hat dafür keinen Platz, oder das sendende Programm lässt es weg; eine Brücke ' +
    'verwenden, die JSON-Zeilen sendet (halfturn simulators copy DIR schreibt eine heraus).',

  'setup.rate-data-output':
    `${rate}: in den Einstellungen des Simulators unter Data Output den Regler der Netzrate (Pakete je Sekunde) ` +
    'verschieben.',
  'setup.rate-subscribe':
    `${rate}: rate unter [subscribe] in der Konfiguration; der Simulator sendet nicht schneller, als er Bilder ` +
    'zeichnet.',
  'setup.rate-output-file': `${rate}: das Attribut rate von <output> in der Ausgabedatei des Simulators.`,
  'setup.rate-option':
    `${rate}: die Zahl nach socket,out, in der Option --generic oder --native-fdm des Simulators; er sendet nicht ` +
    'schneller, als er Bilder zeichnet.',
  'setup.rate-too-slow':
    'Das kommt zu selten, um Kontrollpunkte fein zu beurteilen, und viele solche Programme können nicht ' +
    'schneller senden; eine Brücke mit JSON-Zeilen kann es (halfturn simulators copy DIR schreibt eine heraus).',
  'setup.rate-sender': `${rate}: im sendenden Programm.`,

  'stream.ended': 'Es kommt nichts mehr. Läuft der Simulator, und ist seine Ausgabe noch eingeschaltet?',
  'stream.paused': 'Der Simulator ist angehalten. Laufen lassen.',
  'stream.bank-turned': 'die Querlage ist umgedreht',
  'stream.pitch-turned': 'die Längsneigung ist umgedreht',
  'stream.both-turned': 'Querlage und Längsneigung sind umgedreht',
};
