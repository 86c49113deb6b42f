// Spanish of what commands say about what is asked of them, and of people, stations and certificates; a format keeps
// its verbs. The pages do not load it.

/** @type {Readonly<Record<string, string>>} */
export const commands = {
  '--data and --cluster name two places; give one of them':
    '--data y --cluster nombran dos lugares; indique uno de ellos',
  '%s names no database: each node has its own people and logbook; name the data directory of one with --data':
    '%s no nombra una base de datos, así que cada nodo tiene sus propias personas y su propio libro de ' +
    'vuelo; indique con --data el directorio de datos de uno',
  '--data is a data directory, and no connection string; what works on a cluster takes its file with --cluster':
    '--data es un directorio de datos y no una cadena de conexión; lo que trabaja con un clúster recibe su ' +
    'archivo con --cluster',
  '--from and --to are both %s; name two places':
    '--from y --to son ambos %s; indique dos lugares',
  '%s holds other sessions or people already, and nothing was changed there; name an empty one':
    '%s ya contiene otras sesiones o personas y allí no se ha cambiado nada; indique un lugar vacío',
  'there is no logbook in %s; name the data directory':
    'no hay libro de vuelo en %s; indique el directorio de datos',
  'interrupted: nothing of what was under way is kept; run the same command again':
    'interrumpido: no se guarda nada de lo que estaba en curso; vuelva a dar la misma orden',
  '%s and %d users are copied from %s to %s.':
    '%s y %d usuarios se han copiado de %s a %s.',
  '%s and %d users are in %s already.':
    '%s y %d usuarios ya están en %s.',
  'Digest of the logbook: %s':
    'Suma de comprobación del libro de vuelo: %s',
  'Digest of people: %s':
    'Suma de comprobación de las personas: %s',
  '%d MB of disk are used': 'hay %d MB de disco ocupados',
  '%d datagrams sent to %s, %d refused, %d failed': '%d datagramas enviados a %s, %d rechazados, %d fallidos',
  '%d of %d MB of disk are used': 'hay %d de %d MB de disco ocupados',
  ['%d streams, of which %d were made now, %d changed, and %d have replicas that are not up to date; %d ' +
    'messages']:
    '%d streams, de los que %d se crearon ahora, %d cambiaron y %d tienen réplicas que no están al día; %d ' +
    'mensajes',
  '%q is one argument too many, or no command': '%q es un argumento de más, o no es una orden',
  ['%s. The name was written over where it could be found: look at the file, and delete it if you need it no ' +
    'more.']:
    '%s. El nombre se sobrescribió donde se pudo encontrar: mire el archivo, y bórrelo si ya no lo necesita.',
  'PostgreSQL at %s, database %s': 'PostgreSQL en %s (base de datos %s)',
  'bucket %s at %s': 'el bucket %s en %s',
  '%s can be used': '%s se puede usar',
  '%s has a new key. %s': '%s tiene una clave nueva. %s',
  '%s has the tables': '%s tiene las tablas',
  'version %s':
    'versión %s',
  '%s had no tables: they were made now':
    '%s no tenía tablas: se han creado ahora',
  ['%s had tables of an older version: they were changed now (logbook from shape %d to %d, people from ' +
    '%d to %d)']:
    '%s tenía tablas de una versión anterior: se han cambiado ahora (libro de vuelo de la forma %d a la ' +
    '%d, personas de la %d a la %d)',
  '%d MB are used; %d of %d connections are free':
    'hay %d MB ocupados; %d de %d conexiones están libres',
  '%d of %d connections are free, and a node may need %d: raise max_connections, or run fewer nodes':
    '%d de %d conexiones están libres, y un nodo puede necesitar %d: aumente max_connections, o use menos ' +
    'nodos',
  'the store calls itself %s':
    'el almacén se llama %s',
  '%s was made now, and can be used':
    '%s se ha creado ahora y se puede usar',
  ['the bucket keeps old versions of objects, and with them what is forgotten: switch versioning off and ' +
    'remove the old versions']:
    'el bucket guarda versiones antiguas de los objetos, y con ellas lo que se olvida: desactive las ' +
    'versiones y borre las antiguas',
  '%s is %d; legs count from 1': '%s es %d; los tramos se cuentan desde 1',
  '%s is %q; must be %s': '%s es %q; debe ser %s',
  '%s is %s; must be %s': '%s es %s; debe ser %s',
  '%s is %s; must be a number': '%s es %s; debe ser un número',
  '%s is %s; must be a time such as 90s, 5m or 24h': '%s es %s; debe ser un tiempo como 90s, 5m o 24h',
  '%s is %s; must be a whole number': '%s es %s; debe ser un número entero',
  '%s is %v; must be 0 or more': '%s es %v; debe ser 0 o más',
  '%s is %v; must be between %v and %v': '%s es %v; debe estar entre %v y %v',
  '%s is added. %s': '%s se ha añadido. %s',
  '%s is no PEM file': '%s no es un archivo PEM',
  '%s is not its key': '%s no es su clave',
  ['%s is removed, and can log in no more. What they flew and said stays, as do links made for them (%d) and ' +
    'their name in the log (%d entries). To delete all of it: halfturn students forget %q']:
    '%s está eliminado y ya no puede iniciar sesión. Lo que voló y dijo queda, igual que los enlaces creados para ' +
    'esa persona (%d) y su nombre en el registro (%d entradas). Todo eso lo borra: halfturn students forget %q',
  '%s is removed.': 'Se ha eliminado: %s.',
  '%s must be 0 or more': '%s debe ser 0 o más',
  '%s needs a value': '%s necesita un valor',
  '%s takes one log; %d are given': '%s admite un registro; se han dado %d',
  '%s, %s of %s. First password: %s': '%s, %s de %s. Primera contraseña: %s',
  '%s, %s of %s. Their logins have ended.': '%s, %s de %s. Se han cerrado sus sesiones.',
  '%s, not yet': '%s, todavía no',
  'From the list of people: users: %d, logins: %d, links: %d, entries of the log: %d.':
    'De la lista de personas: usuarios: %d, inicios de sesión: %d, enlaces: %d, entradas del registro: %d.',
  '%s: sessions flown by %s: %d, sessions of others that name them: %d.':
    '%s: sesiones voladas por %s: %d, sesiones de otros con ese nombre: %d.',
  '%s: the demonstration chooses what it flies; halfturn fly --maneuver NAME flies one for halfturn serve':
    '%s: la demostración elige lo que vuela; halfturn fly --maneuver NOMBRE vuela una para halfturn serve',
  '%s; %s --help lists the commands and flags': '%s; %s --help muestra las órdenes y las opciones',
  '%w (a running halfturn serve shows the same at %s)': '%w (un halfturn serve en marcha muestra lo mismo en %s)',
  '%w; then: halfturn stations renew %q': '%w; después: halfturn stations renew %q',
  'Node %s': 'Nodo %s',
  'a command is missing: %s': 'falta una orden: %s',
  'a program listens at %s again': 'un programa escucha otra vez en %s',
  'after %s s %s': 'a los %s s, %s',
  'All sessions: halfturn sessions list. One of them: halfturn sessions show SESSION':
    'Todas las sesiones: halfturn sessions list. Una de ellas: halfturn sessions show SESIÓN',
  'ahead of': 'por delante del',
  'as an administrator': 'como administrador',
  BY: 'POR',
  behind: 'por detrás del',
  'datagrams to %s cannot be sent: %v; sending goes on': 'no se pueden enviar datagramas a %s: %v; se sigue enviando',
  'did you mean %s?': '¿querías decir %s?',
  FOR: 'PARA',
  FROM: 'DESDE',
  GROUP: 'GRUPO',
  'group %s': 'grupo %s',
  ID: 'ID',
  instructor: 'instructor',
  'interrupted: %d of %d files were graded': 'interrumpido: se calificaron %d de %d archivos',
  'is %d; same-direction needs a leg before it: 2 or more': 'es %d; same-direction necesita un tramo antes: 2 o más',
  'is %q; for a %s must be %s': 'es %q; para la maniobra %s debe ser %s',
  'is %q; must be %s': 'es %q; debe ser %s',
  'is %q; must be %s, or a number between %v and %v': 'es %q; debe ser %s, o un número entre %v y %v',
  'is %q; must be a number with h, d or w, such as 90d':
    'es %q; debe ser un número con h, d o w (horas, días, semanas), como 90d',
  'is %q; must be a number with KB, MB, GB or TB, such as 20GB':
    'es %q; debe ser un número con KB, MB, GB o TB, como 20GB',
  'is %q; must be FROM/SPEED in degrees and knots, such as 270/15':
    'es %q; debe ser DESDE/VELOCIDAD en grados y nudos, como 270/15',
  'is %q; must be HOST:PORT such as 127.0.0.1:7181, the port between 1 and 65535':
    'es %q; debe ser EQUIPO:PUERTO, como 127.0.0.1:7181, con el puerto entre 1 y 65535',
  'is %s; a brief is of one maneuver: choose it with --maneuver NAME (halfturn cards lists them)':
    'es %s; un briefing es de una maniobra: elígela con --maneuver NOMBRE (halfturn cards las muestra)',
  'is %v; must be between %v and %v': 'es %v; debe estar entre %v y %v',
  'It has no key.': 'No tiene clave.',
  'Its key is in %s.': 'Su clave está en %s.',
  'Its key, told once: %s': 'Su clave, que se muestra solo esta vez: %s',
  ['Keep %s to yourself: whoever has it can pass for any server to those devices. When no further certificate ' +
    'is to be made, delete it.']:
    'Guarda %s solo para ti: quien lo tenga puede hacerse pasar por cualquier servidor ante esos dispositivos. ' +
    'Cuando no haya que crear otro certificado, bórralo.',
  'KEY LAST USED': 'CLAVE USADA POR ÚLTIMA VEZ',
  NAME: 'NOMBRE',
  never: 'nunca',
  'New password of %s: %s': 'Nueva contraseña de %s: %s',
  'No station has a key or a group. One is added by: halfturn stations add NAME':
    'Ningún puesto tiene clave ni grupo. Se añade uno con: halfturn stations add NOMBRE',
  'No student is named in the logbook. Say who flew: halfturn sessions student SESSION NAME':
    'En el libro de vuelo no se nombra a ningún alumno. Di quién voló: halfturn sessions student SESIÓN NOMBRE',
  'nobody listens at %s; start halfturn serve first, or give another address with --to':
    'nadie escucha en %s; inicia antes halfturn serve o da otra dirección con --to',
  'nobody listens at %s; start halfturn serve, or give another address with --to; sending goes on':
    'nadie escucha en %s; inicia halfturn serve o da otra dirección con --to; se sigue enviando',
  'none: each node keeps what it flew': 'ninguno: cada nodo guarda lo que voló',
  'nothing could be sent to %s: %w; give another address with --to':
    'no se pudo enviar nada a %s: %w; da otra dirección con --to',
  ['Nothing is deleted yet. Sessions flown by %s: %d. Sessions of others that name them: %d. Add --yes to ' +
    'delete the first, and the name in the others.']:
    'Todavía no se ha borrado nada. Sesiones voladas por %s: %d. Sesiones de otros con ese nombre: %d. Con --yes ' +
    'se borran las primeras, y el nombre en las otras.',
  ON: 'EN',
  'open it there, install the profile in Settings; then switch it on in General, About, Certificate Trust Settings':
    'ábrelo allí, instala el perfil en Ajustes; después actívalo en General, Información, Ajustes de confianza de ' +
    'los certificados',
  owner: 'propietario',
  'Put this into the configuration, and start Halfturn again:':
    'Pon esto en la configuración y vuelve a iniciar Halfturn:',
  'Removed: %s, %s.': 'Eliminado: %s, %s.',
  ROLE: 'PAPEL',
  'say by what: %s, %s, or both': 'di según qué: %s, %s o ambos',
  SESSIONS: 'SESIONES',
  'Sessions deleted: %d. Sessions of others from which the name was removed: %d.':
    'Sesiones borradas: %d. Sesiones de otros de las que se quitó el nombre: %d.',
  'sessions: %d, signed: %d': 'sesiones: %d, firmadas: %d',
  'Settings, Privacy & Security, Certificates, View Certificates, Authorities, Import':
    'Ajustes, Privacidad y seguridad, Certificados, Ver certificados, Autoridades, Importar',
  'Settings, Security, Encryption & credentials, Install a certificate, CA certificate':
    'Ajustes, Seguridad, Cifrado y credenciales, Instalar un certificado, Certificado de CA',
  SINCE: 'DESDE CUÁNDO',
  STATIONS: 'PUESTOS',
  STATUS: 'ESTADO',
  student: 'alumno',
  'Take %s to each device that opens the pages, and have it trusted there:':
    'Lleva %s a cada dispositivo que abra las páginas y haz que allí confíe en él:',
  'something stands in the way of the cluster': 'algo impide que el clúster funcione',
  'the authority in %s cannot be used: %w; move both files away to make another':
    'la autoridad de %s no se puede usar: %w; mueve los dos archivos a otro sitio para crear otra',
  'the authority in %s has run out; move it away to make another':
    'la autoridad de %s ha caducado; muévela a otro sitio para crear otra',
  'The authority is the same as before; nothing needs to be done on the other devices.':
    'La autoridad es la misma de antes; no hay que hacer nada en los otros dispositivos.',
  'the card cannot be copied: %w': 'no se puede copiar la tarjeta: %w',
  'the card cannot be written: %w': 'no se puede escribir la tarjeta: %w',
  'the certificate and its key cannot be used: %w': 'no se pueden usar el certificado y su clave: %w',
  'the certificate cannot be made for %s: %w': 'no se puede crear el certificado para %s: %w',
  'The certificate is for %s, until %s.': 'El certificado es para %s, hasta el %s.',
  'The configuration names them as the student of a station: delete that there.':
    'La configuración lo nombra como alumno de un puesto: bórralo allí.',
  'the clock of this machine is %v %s that of node %s; set both by the network (NTP)':
    'el reloj de esta máquina va %v %s reloj del nodo %s; ajusta los dos por la red (NTP)',
  'the direction': 'la dirección',
  'the files cannot be written: %w': 'no se pueden escribir los archivos: %w',
  'The files: halfturn simulators copy DIR': 'Los archivos: halfturn simulators copy CARPETA',
  'the first user must be an owner, so that somebody can manage the others: --role owner':
    'el primer usuario debe ser propietario, para que alguien pueda administrar a los demás: --role owner',
  'the key cannot be written: %w': 'no se puede escribir la clave: %w',
  'The key of %s no longer works.': 'La clave de %s ya no sirve.',
  'The link %s has ended.': 'El enlace %s ha terminado.',
  'the name %q is taken; choose another': 'el nombre %q ya está en uso; elige otro',
  'The name still stands in %s: delete it if you need it no more.':
    'El nombre sigue en %s: borra el archivo si ya no lo necesitas.',
  'The new grades are kept in the session\'s folder as %s. To show them: halfturn sessions show %s --grading %d':
    'Las nuevas notas están en la carpeta de la sesión como %s. Se muestran con: halfturn sessions show %s ' +
    '--grading %d',
  'the pages\' address %s cannot be listened on: %w; choose another':
    'no se puede escuchar en la dirección %s de las páginas: %w; elige otra',
  'the pages\' address %s is taken by another program; stop it, or choose another':
    'la dirección %s de las páginas la ocupa otro programa; ciérralo o elige otra',
  'the speed': 'la velocidad',
  'The steps: halfturn simulators show NAME': 'Los pasos: halfturn simulators show NOMBRE',
  'the summary cannot be printed: %v': 'no se puede imprimir el resumen: %v',
  ['There are no users; whoever is at this machine is its owner. The first is added by: halfturn users add ' +
    '--role owner NAME']:
    'No hay usuarios; quien esté en este equipo es su propietario. El primero se añade con: halfturn users add ' +
    '--role owner NOMBRE',
  'there is no card %q; halfturn cards lists them': 'no hay ninguna tarjeta %q; halfturn cards las muestra',
  'there is no check %q; there are: %s': 'no hay ninguna comprobación %q; hay: %s',
  'there is no flag %s': 'no hay ninguna opción %s',
  'there is no guide %q; there are: %s': 'no hay ninguna guía %q; hay: %s',
  'there is no link %q; halfturn invitations list lists them':
    'no hay ningún enlace %q; halfturn invitations list los muestra',
  'There is no link. One is made by: halfturn invitations add STATION':
    'No hay ningún enlace. Se crea uno con: halfturn invitations add PUESTO',
  'there is no station %q; halfturn stations list lists them':
    'no hay ningún puesto %q; halfturn stations list los muestra',
  'there is no user %q; halfturn users list lists them': 'no hay ningún usuario %q; halfturn users list los muestra',
  'To be removed: %s, %s; --yes removes what is listed.': 'Por eliminar: %s, %s; --yes elimina lo que aparece aquí.',
  'two cards are named: %q, and %q by --maneuver; leave one out':
    'se nombran dos tarjetas: %q, y %q con --maneuver; quita una',
  UNTIL: 'HASTA',
  'Users removed: %d. Links ended: %d. Entries of the log without the name now: %d.':
    'Usuarios eliminados: %d. Enlaces terminados: %d. Entradas del registro que ya no llevan el nombre: %d.',
  viewer: 'invitado',
  WHAT: 'QUÉ',
  'version %s, server %s': 'versión %s, servidor %s',
  'what is missing: %s': 'falta: %s',
  WHEN: 'CUÁNDO',
  'which check is meant is missing; there are: %s': 'falta qué comprobación es; hay: %s',
  WHO: 'QUIÉN',
  'Whoever has this link watches %s until %s:': 'Quien tenga este enlace mira %s hasta el %s:',
  'With --yes there go, too, their user: %d, links made for them: %d, and the name in entries of the log: %d.':
    'Con --yes se borran también: su usuario: %d, enlaces creados para esa persona: %d, y el nombre en entradas ' +
    'del registro: %d.',
  '--pprof is %q; must be HOST:PORT such as 127.0.0.1:6060':
    '--pprof es %q; debe ser HOST:PORT, como 127.0.0.1:6060',
  '--pprof is %q; must be a loopback address such as 127.0.0.1:6060, because profiles show what the program does':
    '--pprof es %q; debe ser una dirección de loopback, como 127.0.0.1:6060, porque los ' +
    'perfiles muestran lo que hace el programa',
  'profiles cannot be served: %w; choose another address':
    'no se pueden servir los perfiles: %w; elige otra dirección',

  // courses
  'COURSE': 'CURSO',
  'STEPS': 'PASOS',
  'TITLE': 'TÍTULO',
  'WHAT IT IS': 'QUÉ ES',
  'step': 'paso',
  'what': 'qué',
  'prompts': 'avisos',
  'passed by': 'se supera con',
  'state': 'estado',
  'against: %s': 'contra: %s',
  '%s, steps passed: %d of %d': '%s, pasos superados: %d de %d',
  'all cues': 'todos',
  'fading': 'cada vez menos',
  'no cues': 'ninguno',
  'one try to each side a day': 'un intento por lado al día',
  '%d good of the last %d, to each side': '%d buenos de los últimos %d, a cada lado',
  '%d good of the last %d': '%d buenos de los últimos %d',
  'passed': 'superado',
  'open': 'abierto',
  'slipped': 'ha decaído',
  'not yet open': 'aún no abierto',
  'right %d of %d': 'derecha %d de %d',
  'left %d of %d': 'izquierda %d de %d',
  'missed most: %s (%d of %d)': 'lo más fallado: %s (%d de %d)',
  '%s, %s standard, prompts: %s': '%s, norma %s, avisos: %s',
  'what counts: %s': 'lo que cuenta: %s',
  'passed by: %s': 'se supera con: %s',
  'source: %s': 'fuente: %s',
  'state: %s, tries: %d, good: %d': 'estado: %s, intentos: %d, buenos: %d',
  'passed by these legs': 'superado con estos tramos',
  'latest legs': 'últimos tramos',
  'not good': 'no bueno',
  ' (overruled)': ' (anulado)',
  'a good course, steps: %d': 'un curso correcto, pasos: %d',
  'the course cannot be written: %w': 'no se puede escribir el curso: %w',
  'Change it, check it with: halfturn course check %s': 'Cámbialo, compruébalo con: halfturn course check %s',
  'and use it with --cards DIR, after moving it to DIR/courses':
    'y úsalo con --cards DIR, tras moverlo a DIR/courses',
  'the course %s is not built from a cause; leave out --cause and --maneuver':
    'el curso %s no se forma a partir de una causa; omite --cause y --maneuver',
  '--cause and --maneuver must be given together': '--cause y --maneuver deben darse juntos',
  'nothing that a course can be built from was found: name a weakness with --cause and --maneuver':
    'no se encontró nada a partir de lo cual formar un curso: nombra una debilidad con --cause y --maneuver',
  '%d of %d': '%d de %d',
  'leg %d': 'tramo %d',
  '%s is missing: say whose': 'falta %s: indica de quién',
  '%s, for %s: %s min': '%s, para %s: %s min',
  'Drill: %s': 'Ejercicio: %s',
  'what counts': 'lo que cuenta',
  'what is said': 'lo que se dice',
  'done after': 'conseguido tras',
  '%d good legs in a row': '%d tramos buenos seguidos',
  'last time': 'la última vez',
  '%d in a row': '%d seguidos',
  '%s at %s°': '%s a %s°',
  'nothing but safety, and how the leg went': 'solo seguridad, y cómo fue el tramo',
  'Set it up with "Drill this" beside the cause in the debrief.':
    'Se prepara con «Ejercitar esto» junto a la causa en el análisis.',
  'say what to drill: --cause and --maneuver, or --student': 'di qué ejercitar: --cause y --maneuver, o --student',
  'nothing that can be drilled was found: name an error with --cause and --maneuver':
    'no se encontró nada que ejercitar: nombra un error con --cause y --maneuver',
  'no test is published; the checks of the card': 'no hay examen publicado; las comprobaciones de la ficha',
  'form: %s; it stands with the session': 'formulario: %s; está con la sesión',
  'prompts now: %s': 'avisos ahora: %s',
  'Nothing is left to fly in this course.': 'En este curso no queda nada por volar.',
  'fly': 'volar',
  'begin': 'empezar',
  'why': 'por qué',
  '%s; may be left out': '%s; puede omitirse',
  'First of all: %s': 'Ante todo: %s',
  '%s, legs in the last seven days: %d, in the four weeks before: %d':
    '%s, tramos en los últimos siete días: %d, en las cuatro semanas anteriores: %d',
  'Steadier': 'Más seguro',
  'Less steady': 'Menos seguro',
  'Still missed': 'Aún fallado',
  'met %d of %d, before %d of %d': 'cumplido %d de %d, antes %d de %d',
  'No check has changed clearly.': 'Ninguna comprobación ha cambiado con claridad.',
  'name the course that --cause and --maneuver are for': 'nombra el curso al que se refieren --cause y --maneuver',
  'the course is missing; name one, or a student with --student':
    'falta el curso; nombra uno, o un alumno con --student',
  'required grade: %s, the latest: %s': 'nota exigida: %s, la última: %s',
  'none yet': 'aún ninguna',
  'passed, says %s: %s': 'superado, dice %s: %s',
  'not yet, says %s: %s': 'todavía no, dice %s: %s',
  'somebody': 'alguien',
  ' (signed)': ' (firmado)',
  '%s now flies: %s': '%s vuela ahora: %s',
  'The ruling on %s is kept.': 'La decisión sobre %s queda guardada.',
  'The step %s is by the rule again.': 'El paso %s vuelve a ser según la regla.',
  'minutes': 'minutos',
};
