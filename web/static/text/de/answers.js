// German of what the server answers when it cannot do what was asked. The keys are the codes of package phrase.

/** @type {Readonly<Record<string, string>>} */
export const answers = {
  'server.internal': 'hier ging etwas schief; das Protokoll des Servers sagt, was',
  'server.foreign-page': 'die Anfrage kam von der Seite eines anderen Servers; die von Halfturn verwenden',
  'server.body-too-long': 'das Gesendete ist länger als {bytes} Bytes',
  'server.body-stopped': 'von dem, was gesendet wird, kam {wait} lang nichts mehr an; noch einmal senden',
  'server.unknown-host':
    'dieser Server ist unter dem Namen {host} nicht bekannt: über seine Adresse öffnen, oder den Namen bei hosts ' +
    'eintragen',
  'server.login-missing': 'erst anmelden, unter /login',
  'server.people-away':
    'die Datenbank antwortet nicht, deshalb ist nicht bekannt, wer angemeldet ist; gecoacht wird weiter, ' +
    'später noch einmal versuchen',
  'server.student-elsewhere':
    'diese Person ist an keinem der eigenen Plätze geflogen; jemanden fragen, der an allen Plätzen lehrt, oder ' +
    'wem dieses Halfturn gehört',
  'server.not-allowed': 'das ist hier nicht erlaubt; eine Lehrkraft fragen, oder wem dieses Halfturn gehört',
  'server.no-page': 'es gibt keine Seite {path}; die Anzeige ist unter /',
  'server.stopping': 'der Server wird beendet',
  'trouble.fault':
    'Ein Fehler in Halfturn hat die letzte Sitzung beendet. Was geflogen wurde, ist aufgehoben, und mit den nächsten ' +
    'Daten beginnt eine neue. Bitte melden: Was versagt hat, steht im Protokoll.',
  'server.busy': 'der Server ist mit anderen Anfragen beschäftigt; gleich noch einmal versuchen',
  'server.connections':
    '{open} Verbindungen sind offen, mehr gehen nicht zugleich; nicht benötigte Seiten schließen und erneut ' +
    'versuchen',
  'server.connections-of-address':
    '{open} Verbindungen dieser Adresse sind offen, mehr darf sie nicht haben; nicht benötigte Seiten schließen ' +
    'und erneut versuchen',
  'server.viewers':
    'es werden keine Zuschauer mehr eingelassen: der Server wird beendet, oder es sind schon {most} da',
  'server.exports': 'es werden schon so viele Exporte geschrieben, wie zugleich gehen; gleich noch einmal versuchen',
  'server.imports':
    'es werden schon so viele Aufzeichnungen importiert, wie zugleich gehen; danach noch einmal versuchen',
  'station.which': '{live} Plätze senden, und keiner wurde genannt; einen nennen, wie in /do/mark?station=NAME',
  'act.unknown':
    'die Handlung {act} gibt es nicht; es gibt end, mark, mute, next, point, repeat, step, stop und student',
  'act.nobody': 'noch niemand wurde genannt; auf der Anzeige nennen, wer fliegt',
  'act.nobody-here': 'niemand ist an dieser Station genannt; auf der Anzeige sagen, wer fliegt',
  'act.nothing-next': 'in diesem Lehrgang ist nichts mehr zu fliegen; einen anderen wählen',
  'station.unknown': 'es gibt keinen Platz {name}; GET /api/stations nennt alle',

  'login.wrong': 'Name oder Passwort ist falsch; noch einmal versuchen, oder ein neues Passwort geben lassen',
  'login.too-often': 'das war zu oft falsch; in {wait} wieder versuchen',
  'login.link': 'dieser Link ist nicht bekannt oder beendet; um einen anderen bitten',
  'login.no-password': 'ein Passwort hat nur, wer mit Namen angemeldet ist',
  'login.password-length': 'ein Passwort hat zwischen {least} und {most} Zeichen',
  'login.owner-first': 'der erste Benutzer muss Eigentümer sein, damit jemand die anderen verwalten kann',
  'login.link-lasts': 'ein Link gilt zwischen 1 Minute und 30 Tagen',
  'login.role': 'die Rolle ist {role}; muss owner, instructor, student oder viewer sein',
  'login.student': 'ein Schüler braucht einen Platz oder eine Gruppe von Plätzen',
  'login.viewer': 'ein Gast hat kein Passwort; einen Link für einen Platz anlegen',
  'login.name-empty': 'der Name ist leer; einen angeben',
  'login.owner-last': 'es gibt keinen anderen Eigentümer; einen anlegen, oder zuerst alle anderen entfernen',

  'logbook.none': 'dieser Server führt kein Flugbuch',
  'recordings.none': 'dieser Server bewahrt keine Aufnahmen auf; mit eingeschalteter Aufnahme starten',
  'logbook.not-there': '{what}; GET /api/sessions nennt alle',
  'leg.number': '{number} ist keine Nummer eines Teils; sie zählen ab 1',
  'leg.unknown': 'die Sitzung hat {legs} Teile; keiner hat die Nummer {leg}',
  'filter.too-long': '{key} ist länger als {most} Zeichen',
  'filter.grade': 'grade ist {grade}; muss unable, fair, good oder excellent sein',
  'filter.flown': 'flown ist {flown}; muss 0 oder 1 sein',
  'import.too-large': 'die Aufzeichnung ist größer als {most}; mit halfturn sessions import importieren',
  'import.no-room':
    'die Aufzeichnung lässt sich hier nicht schreiben ({why}); Platz schaffen, wo die Sitzungen liegen, und noch ' +
    'einmal senden',
  'recording.none': 'von dieser Sitzung gibt es keine Aufnahme; nur ihre Noten wurden behalten',
  'recording.unreadable': 'die Aufnahme ist nicht lesbar: {why}',
  'replay.too-many':
    '{most} Sitzungen werden schon abgespielt, mehr gehen nicht zugleich; zuerst eine davon beenden',
  'replay.pace': 'pace ist {pace}; muss zwischen {least} und {most} liegen',
  'replay.place': 'die Stelle ist {place}; gezählt wird ab 0, wo die Aufnahme beginnt',
  'replay.none': 'Sitzung {session} wird nicht abgespielt; von ihrer Seite neu starten',
  'network.none': 'dieser Rechner hat keine Adresse in einem privaten Netz; erst mit einem verbinden',
  'network.fixed':
    'die Seiten sind durch die Konfiguration im Netz offen; der Schlüssel http der Konfiguration ändert das',
  'network.own-machine-only': 'das geht nur auf einer Seite an dem Rechner, auf dem Halfturn läuft',
  'network.address': '{address} ist keine Adresse der Seiten im Netz',
  'network.code-missing': 'erst unter /enter den Code eingeben, der am Simulator angezeigt wird',
  'network.code-wrong': 'das ist nicht der Code; er hat sechs Ziffern und steht am Simulator auf der Seite Einrichtung',
  'network.code-too-often':
    'der Code war zu oft falsch, darum ist das Netz geschlossen; am Simulator auf der Seite Einrichtung wieder öffnen',
  'network.devices': '{most} Geräte sind schon da; das Netz schließen und wieder öffnen',
  'cluster.away':
    'NATS hat seit {n} s nichts aufbewahrt: Es wird weiter gecoacht und aufgenommen, und {mb} MB warten darauf.',
  'spool.away':
    '{store} antwortet nicht: {bytes} Aufnahmen warten auf der Platte dieses Servers, seit {time}; Aufnehmen und ' +
    'Ansagen gehen weiter, und nichts geht verloren',
  'spool.denied':
    '{store} weist diesen Server ab, sein Protokoll sagt warum: {bytes} Aufnahmen warten auf seiner Platte, seit ' +
    '{time}; Aufnehmen und Ansagen gehen weiter, und nichts geht verloren',
  'logbook.away':
    'Die Datenbank des Logbuchs antwortet seit {time} nicht. Ansagen und Aufnehmen gehen weiter, und nichts geht ' +
    'verloren; Sitzungen, die darauf warten, eingetragen zu werden: {n}.',
  'overload.viewers':
    'Dieser Rechner ist überlastet: Seiten bekommen höchstens {rate} Bilder je Sekunde, bis er ' +
    'nachkommt.',
  'overload.recording': 'Den Aufnahmen fehlen {n} Datagramme: Der Datenträger ist voll oder zu langsam.',
  'overload.coaching':
    'Dieser Rechner verlor {n} Datagramme, ehe er sie bearbeiten konnte: Sie kamen zu schnell. Das kann ' +
    'Noten verfälschen.',
};
