// Spanish of what the server answers, by the codes of package phrase.

/** @type {Readonly<Record<string, string>>} */
export const answers = {
  'server.internal': 'algo salió mal aquí; el registro del servidor dice qué',
  'server.foreign-page': 'la petición vino de la página de otro sitio; usa las de Halfturn',
  'server.body-too-long': 'lo enviado tiene más de {bytes} bytes',
  'server.body-stopped': 'de lo que se envía no llegó nada más durante {wait}; envíalo otra vez',
  'server.unknown-host':
    'este servidor no se conoce por el nombre {host}: ábrelo por su dirección, o añade el nombre a hosts',
  'server.login-missing': 'primero hay que iniciar sesión, en /login',
  'server.people-away':
    'la base de datos no responde y no se sabe quién ha iniciado sesión; la instrucción sigue, inténtalo de nuevo ' +
    'dentro de un rato',
  'server.student-elsewhere':
    'esta persona no ha volado en ninguno de tus puestos; hay que pedirlo a un instructor de todos los puestos ' +
    'o al dueño de este Halfturn',
  'server.not-allowed': 'aquí no está permitido; hay que pedirlo a un instructor o al dueño de este Halfturn',
  'server.no-page': 'no hay ninguna página {path}; el panel está en /',
  'server.stopping': 'el servidor se está cerrando',
  'trouble.fault':
    'Un fallo de Halfturn terminó la última sesión. Lo volado está guardado, y con los próximos datos empieza una ' +
    'nueva. Comunícalo, por favor: el registro dice qué falló.',
  'server.busy': 'el servidor está ocupado con otras peticiones; inténtalo de nuevo en un momento',
  'server.connections':
    'hay {open} conexiones abiertas, tantas como puede haber a la vez; cierra páginas que no hagan falta e ' +
    'inténtalo de nuevo',
  'server.connections-of-address':
    'hay {open} conexiones abiertas de tu dirección, tantas como puede tener; cierra páginas que no hagan falta e ' +
    'inténtalo de nuevo',
  'server.viewers': 'no se admiten más espectadores: el servidor se está cerrando, o ya hay {most}',
  'server.exports':
    'se están escribiendo tantas exportaciones como puede haber a la vez; inténtalo de nuevo en un momento',
  'server.imports': 'se están importando tantas capturas como puede haber a la vez; inténtalo de nuevo cuando terminen',
  'station.which': '{live} puestos envían datos y no se nombró ninguno; nombra uno, como en /do/mark?station=NAME',
  'act.unknown': 'no existe la acción {act}; hay end, mark, mute, next, point, repeat, step, stop y student',
  'act.nobody': 'aún no se ha nombrado a nadie; di en el panel quién vuela',
  'act.nobody-here': 'nadie está nombrado en este puesto; di en el panel quién vuela',
  'act.nothing-next': 'no queda nada por volar en este curso; elige otro',
  'station.unknown': 'no hay ningún puesto {name}; GET /api/stations da los que hay',

  'login.wrong': 'el nombre o la contraseña no es correcto; inténtalo otra vez o pide una contraseña nueva',
  'login.too-often': 'demasiados intentos fallidos; inténtalo de nuevo dentro de {wait}',
  'login.link': 'este enlace no se conoce o ha terminado; pide otro',
  'login.no-password': 'solo tiene contraseña quien ha iniciado sesión con su nombre',
  'login.password-length': 'una contraseña tiene entre {least} y {most} caracteres',
  'login.owner-first': 'el primer usuario debe ser propietario, para que alguien pueda administrar a los demás',
  'login.link-lasts': 'un enlace dura entre 1 minuto y 30 días',
  'login.role': 'el papel es {role}; debe ser owner, instructor, student o viewer',
  'login.student': 'un alumno necesita un puesto o un grupo de puestos',
  'login.viewer': 'un invitado no tiene contraseña; crea un enlace para un puesto',
  'login.name-empty': 'el nombre está vacío; da uno',
  'login.owner-last': 'no hay otro propietario; añade uno, o elimina antes a todos los demás',

  'logbook.none': 'este servidor no lleva libro de vuelo',
  'recordings.none': 'este servidor no guarda grabaciones; arráncalo con la grabación activada',
  'logbook.not-there': '{what}; GET /api/sessions da las que hay',
  'leg.number': '{number} no es el número de un tramo; se cuentan desde 1',
  'leg.unknown': 'la sesión tiene {legs} tramos; ninguno lleva el número {leg}',
  'filter.too-long': '{key} tiene más de {most} letras',
  'filter.grade': 'grade es {grade}; debe ser unable, fair, good o excellent',
  'filter.flown': 'flown es {flown}; debe ser 0 o 1',
  'import.too-large': 'la captura ocupa más de {most}; impórtala con halfturn sessions import',
  'import.no-room':
    'la captura no se puede escribir aquí ({why}); haz sitio donde se guardan las sesiones y envíala otra vez',
  'recording.none': 'de esta sesión no hay grabación; solo se guardaron sus notas',
  'recording.unreadable': 'la grabación no se puede leer: {why}',
  'replay.too-many':
    'ya se están reproduciendo {most} sesiones, tantas como puede haber a la vez; detén primero una de ellas',
  'replay.pace': 'pace es {pace}; debe estar entre {least} y {most}',
  'replay.place': 'el lugar es {place}; se cuenta desde 0, donde empieza la grabación',
  'replay.none': 'la sesión {session} no se está reproduciendo; empiézala de nuevo desde su página',
  'network.none': 'este equipo no tiene dirección en una red privada; conéctalo a una e inténtalo de nuevo',
  'network.fixed': 'las páginas están abiertas a la red por la configuración; eso se cambia con su clave http',
  'network.own-machine-only': 'eso solo se puede hacer desde una página en el equipo en que corre Halfturn',
  'network.address': '{address} no es una dirección de las páginas en la red',
  'network.code-missing': 'escribe primero, en /enter, el código que se muestra en el simulador',
  'network.code-wrong': 'ese no es el código; tiene seis cifras y se muestra en el simulador, en la página Preparación',
  'network.code-too-often':
    'el código fue erróneo demasiadas veces y la red se ha cerrado; ábrela de nuevo en el simulador, en la página ' +
    'Preparación',
  'network.devices': 'ya hay {most} dispositivos; cierra la red y ábrela de nuevo',
  'cluster.away':
    'NATS lleva {n} s sin guardar nada: la instrucción y la grabación siguen, y {mb} MB esperan a ser guardados.',
  'spool.away':
    '{store} no responde: {bytes} de grabaciones esperan en el disco de este servidor, desde hace {time}; la ' +
    'grabación y los avisos continúan, y no se pierde nada',
  'spool.denied':
    '{store} rechaza este servidor, y su registro dice por qué: {bytes} de grabaciones esperan en su disco, desde ' +
    'hace {time}; la grabación y los avisos continúan, y no se pierde nada',
  'logbook.away':
    'La base de datos del registro no responde desde hace {time}. Los avisos y la grabación continúan, y no se ' +
    'pierde nada; sesiones que esperan a ser anotadas: {n}.',
  'overload.viewers':
    'Este equipo está sobrecargado: las páginas reciben como mucho {rate} imágenes por segundo hasta que ' +
    'dé abasto.',
  'overload.recording': 'A las grabaciones les faltan {n} datagramas: el disco está lleno o es demasiado lento.',
  'overload.coaching':
    'Este equipo perdió {n} datagramas antes de poder procesarlos: llegaban demasiado rápido. Las notas ' +
    'pueden resentirse.',
};
