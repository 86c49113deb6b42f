// German of what is said of a stream: what to do about it, what must be known of it, and why it does not go on. The
// keys are the codes of package phrase.

const lacking = 'ohne die sich nichts begleiten lässt';
const resend =
  'Die Ausgabe des Simulators neu starten, damit er die Überschriften sendet, oder die Spalten in einer Datei ' +
  'beschreiben und sie mit --map FILE angeben.';
const another = 'Die Spaltenkarte berichtigen oder eine andere mit --map FILE angeben.';
const restart = 'in die Konfigurationsdatei schreiben und Halfturn neu starten';
const ellipsoid = 'die Höhe ist die über dem Ellipsoid, bis zu {most} anders als über dem Meeresspiegel';

/** @type {Readonly<Record<string, string>>} */
export const stream = {
  'advice.nothing-readable':
    'Nichts in diesen Datagrammen ist lesbar. Textspalten mit Überschriften, Paare Name=Wert, DATA-Zeilen oder ' +
    'JSON-Zeilen senden; fertige Einrichtungsdateien liegen im Ordner simulators.',
  'advice.not-readable-as':
    'Die letzten Datagramme waren nicht lesbar als {format}. Die Ausgabe im Simulator neu starten.',
  'advice.channel-no-number':
    'Der Kanal {channel} ist in diesen Daten keine Zahl, und ohne ihn lässt sich nichts begleiten. Eine Zahl von ' +
    '{least} bis {most} senden.',
  'advice.channel-time':
    'Der Kanal {channel} ist in diesen Daten {value}, was nicht sein kann: Er muss von {least} bis {most} gehen. ' +
    'Sekunden senden, gezählt ab einem beliebigen Zeitpunkt.',
  'advice.channel-impossible':
    'Der Kanal {channel} ist in diesen Daten {value}, was nicht sein kann: Er muss von {least} bis {most} gehen. ' +
    'Die Einheit beim Sender berichtigen, oder in der Spaltenkarte, die ihn liest.',
  'advice.too-few-samples':
    'Nur {rate} Messungen je Sekunde kommen an: zu wenige zum Bewerten. Den Simulator mindestens 5 je Sekunde ' +
    'senden lassen, besser 30.',
  'hole.own':
    'Datagramme dieses Platzes, die dieser Rechner etwa {time} nach Beginn der Sitzung verlor: {own}. Sie kamen ' +
    'schneller, als er sie verarbeitete.',
  'hole.shared':
    'Datagramme dieses oder anderer Plätze, die dieser Rechner etwa {time} nach Beginn der Sitzung verlor: {shared}. ' +
    'Sie kamen schneller, als er sie las.',
  'hole.both':
    'Datagramme dieses Platzes, die dieser Rechner etwa {time} nach Beginn der Sitzung verlor: {own}. Dieses oder ' +
    'anderer Plätze: {shared} weitere. Sie kamen schneller, als er sie las und verarbeitete.',
  'advice.only-beacon':
    'Das ist nur das Funkfeuer des Simulators. Die Zeilen 1, 3, 4, 8, 16, 17, 18, 20 und 25 der Datenausgabe ' +
    '(DATA) einschalten.',
  'advice.only-array':
    'Das ist ein JSON-Array. Ein JSON-Objekt je Zeile senden, in dem vor jedem Wert der Name seines Kanals steht.',
  'advice.only-positions':
    'Das sind nur Positionen (NMEA 0183): keine Lage, keine Fahrt. Das Protokoll generic mit der Datei ' +
    'halfturn.xml verwenden.',
  'advice.no-attitude-tablet':
    `Position oder Verkehr kommt an, aber keine Lage (XATT), ${lacking}. Die Lage in dem Programm einschalten, das ` +
    'an Tablets sendet.',
  'advice.no-attitude-rows':
    `Den DATA-Zeilen fehlt Zeile 17 (Nasenlage, Querlage, Kurse), ${lacking}. Sie in der Datenausgabe des ` +
    'Simulators einschalten.',
  'advice.no-attitude-datarefs':
    `Die gesendeten Datarefs enthalten keine Lage (true_psi, true_theta, true_phi), ${lacking}. Sie senden, oder ` +
    'die Zeilen 1, 3, 4, 8, 16, 17, 18, 20 und 25 der Datenausgabe (DATA) einschalten.',
  'advice.no-attitude-gdl':
    `Diese Daten (GDL 90) enthalten keine Lage mit Kurs (Nachricht 0x65 oder 0x4C), ${lacking}. AHRS in dem ` +
    'Programm einschalten, das sie sendet.',
  'advice.no-attitude-mavlink':
    `Diese MAVLink-Daten enthalten keine Nachricht ATTITUDE, ${lacking}. Eine höhere Rate davon anfordern ` +
    '(Parameter SR0_EXTRA1 oder ähnlich).',
  'advice.no-entity':
    'Nichts von dem, was hier ankommt, handelt von einem Objekt, dem sich folgen ließe. Entity-State-PDUs des ' +
    'eigenen Flugzeugs des Simulators senden.',
  'advice.columns-in-order':
    `Die Daten haben {columns} Spalten, die Spaltenkarte {map} nennt {listed} in ihrer Reihenfolge. ${another}`,
  'advice.columns-of-map': `Die {columns} Spalten der Daten passen nicht zur Spaltenkarte {map}. ${another}`,
  'advice.columns-unlike':
    'Die Daten haben {columns} Spalten ohne Überschriften; eine bekannte Spaltenkarte hat so viele, aber die ' +
    `Werte sehen nicht danach aus. ${resend}`,
  'advice.columns-unknown':
    `Die Daten haben {columns} Spalten ohne Überschriften, und keine bekannte Spaltenkarte hat so viele. ${resend}`,
  'advice.bank-reversed':
    'Querlage und Kurve widersprechen sich: dieser Sender gibt Querlage nach links als positiv an. Die Zeile ' +
    `bank-sign = "reversed" ${restart}; oder bank-sign = "auto", das es selbst herausfindet.`,
  'advice.bank-as-sent':
    'Querlage und Kurve widersprechen sich: bank-sign steht auf "reversed", aber dieser Sender gibt Querlage nach ' +
    `rechts als positiv an. Die Zeile bank-sign = "as-sent" ${restart}.`,
  'advice.pitch-reversed':
    'Nasenlage und Steigrate widersprechen sich: dieser Sender gibt Nase unten als positiv an. Die Zeile ' +
    `pitch-sign = "reversed" ${restart}; oder pitch-sign = "auto", das es selbst herausfindet.`,
  'advice.pitch-as-sent':
    'Nasenlage und Steigrate widersprechen sich: pitch-sign steht auf "reversed", aber dieser Sender gibt Nase ' +
    `oben als positiv an. Die Zeile pitch-sign = "as-sent" ${restart}.`,

  'detail.tablet':
    'Lage und Position nach dem Empfang zusammengeführt; keine Fahrt; der Kurs über Grund kann der Steuerkurs ' +
    'sein, wie es der Sender hält',
  'detail.mavlink':
    'die Fahrt ist die angezeigte oder die äquivalente, wie es der Autopilot hält; keine Höhe über Grund',
  'detail.native':
    'Drehraten aus Euler-Raten; keine wahre Fahrt, kein Gashebel, keine Uhr; Schiebewinkel und Drehzahl nur, wenn ' +
    'je anders als 0',
  'detail.datarefs': 'Werte einzelner Datarefs, mit 32 Bit',
  'detail.ellipsoid': `${ellipsoid}; keine Fahrt`,
  'detail.gdl-ellipsoid': `${ellipsoid}; Lage aus Nachricht {message}`,
  'detail.gdl-pressure':
    'die Höhe ist die Druckhöhe, in den meisten Simulatoren die wahre; Lage aus Nachricht {message}',
  'detail.gdl-sea': 'die Höhe ist die über dem Meeresspiegel; Lage aus Nachricht {message}',
  'detail.rows-old-told': 'Zeile 16 ist Nicken, Rollen, Gieren in rad/s (Versionen 10 und 11), wie angegeben',
  'detail.rows-old-found':
    'Zeile 16 ist Nicken, Rollen, Gieren in rad/s (Versionen 10 und 11), an der Änderung der Lage erkannt',
  'detail.rows-new-told': 'Zeile 16 ist Rollen, Nicken, Gieren in °/s (Version 12), wie angegeben',
  'detail.rows-new-found':
    'Zeile 16 ist Rollen, Nicken, Gieren in °/s (Version 12), an der Änderung der Lage erkannt',
  'detail.rows-unknown': 'Zeile 16: Anordnung noch nicht erkannt, ihre Raten werden nicht verwendet',

  'jump.clock-back': 'die Uhr ging zurück',
  'jump.receipt-back': 'die Empfangsuhr ging zurück',
  'jump.clock-appeared': 'in den Daten erschien die Uhr des Simulators',
  'jump.clock-gone': 'die Uhr des Simulators wird nicht mehr gesendet',
  'jump.gap': 'Lücke von {gap} in den Daten',
  'jump.attitude': 'die Lage sprang',
  'jump.altitude': 'die Höhe sprang',
  'jump.airspeed': 'die Fahrt sprang',
  'jump.position': 'die Position sprang',
  'jump.pace':
    'die Zeit des Simulators lief schneller oder langsamer als die Uhr; sein Tempo auf 1 stellen und neu beginnen',
  'jump.format': 'der Sender wechselte sein Format',
  'jump.bank-turned': 'die Querlage kam mit anderem Vorzeichen und wird umgedreht',
  'jump.pitch-turned': 'die Nasenlage kam mit anderem Vorzeichen und wird umgedreht',
};
