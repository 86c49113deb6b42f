// Spanish of the pages that let people in, and of the one that lists them.

/** @type {Readonly<Record<string, string>>} */
export const people = {
  'Halfturn does not say who looks here: what takes a right is not shown until it does.':
    'Halfturn no dice quién mira aquí: lo que exige un derecho no se muestra hasta que lo diga.',
  'Log in': 'Iniciar sesión',
  'Name': 'Nombre',
  'Password': 'Contraseña',
  'Log in by name instead': 'Iniciar sesión con nombre en su lugar',
  'Type the code of the simulator instead': 'Escribir en su lugar el código del simulador',
  ['Nobody can log in here yet. On the machine that Halfturn runs on, the page Set-up shows a code for ' +
    'tablets and phones, and halfturn users add makes users.']:
    'Aquí todavía nadie puede iniciar sesión. En el equipo en que corre Halfturn, la página ' +
    'Preparación muestra un código para tabletas y teléfonos, y halfturn users add crea usuarios.',
  'Watch': 'Mirar',
  'One moment': 'Un momento',
  'People': 'Personas',
  'Users, and links for guests': 'Usuarios, y enlaces para invitados',
  'Log out': 'Cerrar sesión',
  'Password of now': 'Contraseña actual',
  'New password': 'Nueva contraseña',
  'Change the password': 'Cambiar la contraseña',
  'Your password': 'Tu contraseña',
  'The password is changed; you are logged out everywhere else.':
    'La contraseña está cambiada; en todos los demás sitios se ha cerrado la sesión.',
  'For whom': 'Para quién',
  'Hours': 'Horas',
  'Make a link': 'Crear un enlace',
  'Whoever has this link can watch until it ends:': 'Quien tenga este enlace puede mirar hasta que termine:',
  '{station} for {name}, until {when}': '{station} para {name}, hasta {when}',
  'a guest': 'un invitado',
  'End it': 'Terminarlo',
  'Links to watch a station': 'Enlaces para mirar un puesto',
  'A link can be made once a station is there.': 'Se puede crear un enlace en cuanto haya un puesto.',
  'group {name}': 'grupo {name}',
  'all stations': 'todos los puestos',
  'Owner': 'Propietario',
  'Guest': 'Invitado',
  'Role': 'Papel',
  'Stations, with commas between': 'Puestos, separados por comas',
  'Group of stations': 'Grupo de puestos',
  'Add a user': 'Añadir un usuario',
  'Remove': 'Quitar',
  '{name} is removed, and can log in no more. What they flew and said stays.':
    '{name} ya no está y no puede entrar. Lo que voló y dijo se queda.',
  'To delete all of it:': 'Para borrarlo todo:',
  ['There are no users: whoever is at this machine is its owner. Once there are, everybody logs in; add ' +
    'an owner first, and note the password.']:
    'No hay usuarios: quien esté en este equipo es su propietario. En cuanto los haya, todos inician ' +
    'sesión; añade primero un propietario y anota la contraseña.',
  'Users': 'Usuarios',
  'Password of {name}, told once:': 'Contraseña de {name}, se muestra solo esta vez:',
  'What was asked for last': 'Lo último que se pidió',
  'fly: choose, mark, end': 'volar: elegir, marcar, terminar',
  'only watch': 'solo mirar',
  instruct: 'instruir',
  'What they may do: ': 'Lo que pueden hacer: ',
};
