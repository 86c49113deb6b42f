// The German sentences of finding simulators, measuring aircraft, and demonstrations, by their codes.

/** @type {Readonly<Record<string, string>>} */
export const measure = {
  'measure.lacks': 'dem Datenstrom fehlt {channel}, darum ist das nicht messbar',
  'measure.ground': 'das Flugzeug steht am Boden: erst starten und steigen',
  'measure.bank': 'Querlage {bank}: die Flügel waagerecht halten, auf {limit} genau',
  'measure.climb': '{climb}: die Höhe halten, auf {limit} genau',
  'measure.speed': 'die Fahrt ändert sich: auf {limit} genau halten',
  'measure.load':
    'das Lastvielfache zeigt {load} im Geradeausflug; muss nahe {one} sein: was der Simulator dafür sendet, ist falsch',
  'measure.fast': '{speed}: Leistung weg, Höhe halten und bis zur Überziehwarnung langsamer werden lassen',
  'measure.slow':
    '{speed} ist zu langsam, um bei einer Überziehfahrt von {stall} ein Manöver zu beginnen: mindestens {least} ' +
    'fliegen',
  'measure.no-stall': 'noch nicht überzogen und keine Überziehwarnung; am langsamsten waren es {speed}',
  'measure.nothing': 'an {station} wird nichts gemessen; neu beginnen',
  'measure.not-done': 'es gibt noch keine Anfangsfahrt, und eine Karte braucht sie',
  'measure.name': 'dem Flugzeug einen Namen von 1 bis 40 Zeichen geben',
  'measure.taken': 'ein Flugzeug {name} gibt es schon; einen anderen Namen nehmen',
  'measure.bad': 'aus diesen Zahlen wird keine Karte: {why}; neu messen',
  'demonstration.maneuver': 'das eingebaute Flugzeug kann {maneuver} nicht fliegen',
  'demonstration.fixed': 'das ist eine Vorführung; sie beenden und selbst fliegen, um das zu ändern',
  'find.off':
    'hier wird kein Simulator gefragt; den Schlüssel nearby unter [subscribe] der Konfiguration auf true setzen',
  'find.full': '{most} Simulatoren werden schon gefragt; erst bei einem damit aufhören',
  'find.public': 'das ist keine Adresse dieses Rechners oder eines privaten Netzes; sie mit --subscribe nennen',
  'find.address': '{address} ist keine Adresse eines Simulators; in Zahlen angeben, etwa 192.168.1.20',
  'find.port': 'der UDP-Port {port} lässt sich nicht zum Netz öffnen: {why}',
  'guide.no-file': 'die Anleitung hat keine Datei {file}',
};
