/** A column of a table: where in the entity it stands, and what it is called. How it is typed comes from the schema. */
export interface Column {
  heading: string
  /** Below the entity, such as "/mass/value"; empty for the entity itself. */
  below: string
  /** Width in characters where the kind of field asks for too much or too little. */
  width?: number
  /** The other system's value is not shown beside it. */
  plain?: boolean
}

/** What of a project file is one table. */
export interface Collection {
  /** Address in the file. */
  at: string
  title: string
  /** One of them, in a sentence. */
  one: string
  /** Field that says what an entity is called; absent, its id. */
  name?: string
  columns: readonly Column[]
}

/** What of a project file is one thing with fields of its own. */
export interface Single {
  at: string
  title: string
  /** Fields below that are tables of their own, and not shown again. */
  without?: readonly string[]
}

export interface Group {
  title: string
  of: readonly (Collection | Single)[]
}

export const isCollection = (of: Collection | Single): of is Collection => 'columns' in of

const column = (heading: string, below: string, more: Partial<Column> = {}): Column => ({ heading, below, ...more })
const note = column('Note', '/note', { width: 30 })
const plain = { plain: true }

const MACHINE: readonly (Collection | Single)[] = [
  {
    at: '/parts',
    title: 'Parts',
    one: 'part',
    name: '/name',
    columns: [
      column('Name', '/name', { width: 28 }),
      column('Mass of one', '/mass/value'),
      column('±', '/mass/uncertainty', { width: 7 }),
      column('Basis', '/mass/basis'),
      column('Source', '/mass/source', { width: 30 }),
      column('Date', '/mass/date'),
      column('Group', '/group', { width: 14 }),
      column('Material', '/material', { width: 12 }),
      column('Count', '/pattern/count', { width: 7 }),
      column('Fate', '/fate'),
      note,
    ],
  },
  {
    at: '/joints',
    title: 'Joints',
    one: 'joint',
    columns: [
      column('Between', '/between', { width: 24 }),
      column('Kind', '/kind'),
      column('Access', '/access'),
      column('Thread', '/bolts/thread', { width: 9 }),
      column('Bolts', '/bolts/count', { width: 7 }),
      column('Grade', '/bolts/grade', { width: 7 }),
      column('Preload', '/bolts/preload'),
      column('One off', '/bolts/timeOff', { width: 10 }),
      column('One on', '/bolts/timeOn', { width: 10 }),
      column('Weld', '/weld/length', plain),
      column('Throat', '/weld/throat', plain),
      column('Release', '/timeOff', { width: 10 }),
      column('Close', '/timeOn', { width: 10 }),
      column('Hidden by', '/hiddenBy', { width: 20 }),
      note,
    ],
  },
  {
    at: '/services',
    title: 'Services',
    one: 'service',
    columns: [
      column('Kind', '/kind', { width: 8 }),
      column('Medium', '/medium', { width: 16 }),
      column('From', '/from', { width: 13 }),
      column('To', '/to', { width: 13 }),
      column('Size', '/size', { width: 17 }),
      column('Length', '/length'),
      column('Isolation', '/isolation', { width: 11 }),
      column('Tag', '/tag', { width: 10 }),
      column('Parted by', '/parted/by', { width: 12 }),
      column('on', '/parted/on', { width: 11 }),
      column('Joined by', '/joined/by', { width: 12 }),
      column('on', '/joined/on', { width: 11 }),
      column('Port', '/joined/port', { width: 10 }),
      column('Checked by', '/joined/checkedBy', { width: 12 }),
      column('Drained', '/drained', plain),
      column('Part', '/timeOff', { width: 10 }),
      column('Reconnect', '/timeOn', { width: 10 }),
      column('Follows', '/follows', { width: 8 }),
      column('Pressure', '/pressure', plain),
      column('Voltage', '/voltage', plain),
      note,
    ],
  },
  { at: '/ends', title: 'Ends', one: 'end', name: '/name', columns: [column('Name', '/name', { width: 60 })] },
  {
    at: '/isolations',
    title: 'Isolations',
    one: 'isolation',
    name: '/what',
    columns: [
      column('What', '/what', { width: 34 }),
      column('Kind', '/kind', { width: 22 }),
      column('Where', '/where', { width: 30 }),
      column('Stored energy', '/storedEnergy', { width: 44 }),
      column('Isolated on', '/signed/isolated/on', { width: 12 }),
      column('By', '/signed/isolated/by', { width: 18 }),
      column('Locked on', '/signed/locked/on', { width: 12 }),
      column('By', '/signed/locked/by', { width: 18 }),
      column('Discharged on', '/signed/discharged/on', { width: 12 }),
      column('By', '/signed/discharged/by', { width: 18 }),
      column('Proved dead on', '/signed/proved/on', { width: 12 }),
      column('By', '/signed/proved/by', { width: 18 }),
    ],
  },
  {
    at: '/changes',
    title: 'Changes',
    one: 'change',
    name: '/what',
    columns: [
      column('What', '/what', { width: 34 }),
      column('Kind', '/kind'),
      column('Status', '/status'),
      column('Parts', '/parts', { width: 22 }),
      column('New over old', '/factor', { width: 9 }),
      column('Added', '/added/mass'),
      column('Basis', '/added/basis'),
      column('±', '/added/uncertainty', { width: 7 }),
      column('From', '/added/from', { width: 30 }),
      column('Reason', '/reason', { width: 30 }),
    ],
  },
  {
    at: '/materials',
    title: 'Materials',
    one: 'material',
    columns: [column('Density', '/density'), column("Young's modulus", '/young'), note],
  },
  { at: '/machine', title: 'Pose and totals', without: ['/machine/groupTotals'] },
  {
    at: '/machine/groupTotals',
    title: 'Group totals',
    one: 'total',
    columns: [
      column('Mass', '/mass'),
      column('±', '/uncertainty', { width: 7 }),
      column('Source', '/source', { width: 50 }),
    ],
  },
]

const GROUND: readonly (Collection | Single)[] = [
  { at: '/shaft', title: 'Shaft', without: ['/shaft/eyes', '/shaft/obstructions'] },
  {
    at: '/shaft/eyes',
    title: 'Eyes',
    one: 'eye',
    columns: [
      column('Centre', '/centre'),
      column('Diameter', '/diameter'),
      column('Side', '/side', { width: 7 }),
      column('Decided', '/decided', { width: 34 }),
      note,
    ],
  },
  {
    at: '/shaft/obstructions',
    title: 'Things in the shaft',
    one: 'thing',
    name: '/what',
    columns: [
      column('What', '/what', { width: 34 }),
      column('x', '/x', { width: 20 }),
      column('y', '/y', { width: 20 }),
      column('z', '/z', { width: 20 }),
      column('Round', '/round', { width: 7 }),
      column('Removed before', '/removedBefore', { width: 18 }),
      note,
    ],
  },
  { at: '/cradle', title: 'Cradle', without: ['/cradle/jacking/points'] },
  {
    at: '/cradle/jacking/points',
    title: 'Jacks under the shield',
    one: 'jack',
    columns: [column('Place', '/at', { width: 20 }), note],
  },
  {
    at: '/ground',
    title: 'Ground',
    without: [
      '/ground/layers',
      '/ground/water',
      '/ground/pads',
      '/ground/decisions',
      '/ground/treatments',
      '/ground/instruments',
      '/ground/plant',
    ],
  },
  {
    at: '/ground/layers',
    title: 'Layers',
    one: 'layer',
    name: '/name',
    columns: [
      column('Name', '/name', { width: 28 }),
      column('Top', '/top'),
      column('Bottom', '/bottom'),
      column('Unit weight', '/unitWeight'),
      column('Friction angle', '/phi', { width: 10 }),
      column('Cohesion', '/cohesion'),
      column('Undrained', '/undrained'),
      column('Modulus', '/young'),
      column('At rest', '/k0', { width: 8 }),
      column('Permeability', '/permeability', plain),
      note,
    ],
  },
  {
    at: '/ground/water',
    title: 'Water',
    one: 'water',
    columns: [
      column('Layers', '/layers', { width: 24 }),
      column('Head', '/head'),
      column('Drawn down', '/drawnDown'),
      column('Tide', '/tide'),
      column('Wells', '/wells/installed', { width: 7 }),
      column('Needed', '/wells/needed', { width: 8 }),
      column('Recovery', '/wells/recovery', { width: 10 }),
      note,
    ],
  },
  {
    at: '/ground/pads',
    title: 'Crane standings',
    one: 'standing',
    columns: [
      column('Centre', '/centre', { width: 18 }),
      column('Size', '/size', { width: 18 }),
      column('Allowable', '/allowable'),
      note,
    ],
  },
  {
    at: '/ground/decisions',
    title: 'Decisions',
    one: 'decision',
    name: '/what',
    columns: [
      column('What', '/what', { width: 44 }),
      column('Value', '/value', { width: 24 }),
      column('Decided by', '/decidedBy', { width: 24 }),
      column('On', '/on', { width: 24 }),
      column('Withdrawn', '/withdrawn', { width: 24 }),
    ],
  },
  {
    at: '/ground/plant',
    title: 'Plant and stockpiles',
    one: 'thing that stands there',
    name: '/what',
    columns: [
      column('What', '/what', { width: 30 }),
      column('Centre', '/centre', { width: 18 }),
      column('Size', '/size', { width: 18 }),
      column('Mass', '/mass'),
      column('During', '/during', { width: 24 }),
      note,
    ],
  },
  {
    at: '/ground/instruments',
    title: 'Instruments',
    one: 'instrument',
    name: '/what',
    columns: [
      column('What', '/what', { width: 30 }),
      column('Measures', '/measures', { width: 12 }),
      column('Alert', '/alert'),
      column('Action', '/action'),
      column('Alarm', '/alarm'),
      column('Read every', '/every', { width: 10 }),
      column('Notice', '/notice', { width: 10 }),
      column('At alert', '/plan/alert', { width: 30 }),
      column('At action', '/plan/action', { width: 30 }),
      column('At alarm', '/plan/alarm', { width: 30 }),
      note,
    ],
  },
  {
    at: '/ground/treatments',
    title: 'Treated ground',
    one: 'treatment',
    name: '/what',
    columns: [
      column('What', '/what', { width: 34 }),
      column('Along', '/along', { width: 20 }),
      column('Eye', '/eye', { width: 10 }),
      column('Strength', '/strength'),
      column('Accepted', '/accepted', { width: 30 }),
      note,
    ],
  },
]

const SITE: readonly (Collection | Single)[] = [
  {
    at: '/bays',
    title: 'Bays',
    one: 'bay',
    name: '/name',
    columns: [
      column('Name', '/name', { width: 16 }),
      column('Centre', '/centre', { width: 16 }),
      column('Size', '/size', { width: 16 }),
      column('Level', '/level'),
      column('Allowable', '/allowable'),
      column('Bearing share', '/bearingShare', { width: 9 }),
      column('Piles', '/piles/count', { width: 7 }),
      column('Load of one', '/piles/workingLoad'),
      column('Construction', '/construction', { width: 34 }),
      note,
    ],
  },
  {
    at: '/utilities',
    title: 'Neighbours',
    one: 'neighbour',
    name: '/what',
    columns: [
      column('What', '/what', { width: 34 }),
      column('Settlement: alert', '/settlement/alert', plain),
      column('Action', '/settlement/action', plain),
      column('Alarm', '/settlement/alarm', plain),
      column('Reading', '/settlement/reading', plain),
      column('On', '/settlement/on'),
      column('Clearance', '/clearance'),
      column('Axis', '/axis'),
      column('May press', '/allowable'),
      note,
    ],
  },
  {
    at: '/transports',
    title: 'Transports',
    one: 'transport',
    name: '/kind',
    columns: [
      column('Kind', '/kind', { width: 30 }),
      column('Payload', '/payload'),
      column('Own mass', '/selfMass'),
      column('Platform', '/platform', { width: 18 }),
      column('Takes', '/takes', { width: 30 }),
      column('To', '/to', { width: 14 }),
      column('Slope', '/maxSlope', { width: 8 }),
    ],
  },
  { at: '/climate', title: 'Wind and weather', without: ['/climate/months'] },
  {
    at: '/climate/months',
    title: 'Months',
    one: 'month',
    columns: [
      column('Scale', '/scale'),
      column('Shape', '/shape', { width: 8 }),
      column('Frost, days', '/frostDays', { width: 10 }),
      column('Fog, hours', '/fogHours', { width: 10 }),
    ],
  },
]

const LIFTING: readonly (Collection | Single)[] = [
  {
    at: '/temporaryWorks',
    title: 'Temporary works',
    one: 'temporary work',
    name: '/name',
    columns: [
      column('Name', '/name', { width: 28 }),
      column('Category', '/category', { width: 8 }),
      column('Required', '/required'),
      column('Designer', '/designer/name', { width: 20 }),
      column('Of', '/designer/organisation', { width: 20 }),
      column('Checker', '/checker/name', { width: 20 }),
      column('Of', '/checker/organisation', { width: 20 }),
      column('Designed', '/designed/on'),
      column('Checked', '/checked/on'),
      column('May be loaded', '/permitToLoad/on'),
      column('Until', '/permitToLoad/until'),
      note,
    ],
  },
  {
    at: '/weighings',
    title: 'Weighings',
    one: 'weighing',
    columns: [
      column('Piece', '/piece', { width: 16 }),
      column('Weighed', '/measured'),
      column('±', '/accuracy', { width: 8 }),
      column('Date', '/date'),
      column('Lift', '/lift', { width: 16 }),
      column('Includes', '/includes', { width: 40 }),
    ],
  },
  {
    at: '/pieces',
    title: 'Pieces',
    one: 'piece',
    name: '/name',
    columns: [
      column('Name', '/name', { width: 28 }),
      column('Short', '/short', { width: 12 }),
      column('Parts', '/parts', { width: 36 }),
      column('Retained', '/retained'),
      column('Of it back', '/retainedBack'),
      column('Bay', '/bay', { width: 7 }),
      note,
    ],
  },
  { at: '/order', title: 'Order', one: 'step', columns: [column('Step', '', { width: 30 })] },
  {
    at: '/steps',
    title: 'Steps',
    one: 'step',
    columns: [
      column('Piece', '/piece', { width: 16 }),
      column('Lift', '/lift', { width: 20 }),
      column('Back', '/back', { width: 20 }),
      column('Stays', '/stays', { width: 7 }),
      column('Support', '/support', { width: 24 }),
      note,
    ],
  },
  {
    at: '/lifts',
    title: 'Lifts',
    one: 'lift',
    columns: [
      column('Piece', '/piece', { width: 16 }),
      column('Kind', '/kind', { width: 7 }),
      column('Carries', '/as', { width: 10 }),
      column('System', '/system', { width: 9 }),
      column('Hook', '/hook', { width: 9 }),
      column('Tail hook', '/tail/hook', { width: 9 }),
      column('Bay', '/bay', { width: 7 }),
      column('Stops at', '/stopWind', plain),
      column('Over', '/over', plain),
      column('Radius', '/radius', plain),
      column('Attitude', '/attitude', { width: 10 }),
      note,
    ],
  },
  {
    at: '/systems',
    title: 'Lifting systems',
    one: 'system',
    name: '/name',
    columns: [
      column('Name', '/name', { width: 34 }),
      column('Kind', '/kind', { width: 15 }),
      column('Planned share', '/planned', { width: 9 }),
      column('Hoist factor', '/dynamicFactor', { width: 9 }),
      column('Own mass', '/selfMass'),
      column('Gust in service', '/wind/service'),
      column('Travelling', '/wind/travel'),
      column('Tested', '/tested/on'),
      column('Until', '/tested/until'),
      note,
    ],
  },
  {
    at: '/gear',
    title: 'Gear',
    one: 'gear',
    name: '/name',
    columns: [
      column('Name', '/name', { width: 30 }),
      column('Kind', '/kind', { width: 14 }),
      column('Mass', '/mass'),
      column('Rated', '/rated'),
      column('Length', '/length'),
      column('Bolted to', '/boltedTo', { width: 24 }),
    ],
  },
  {
    at: '/stock',
    title: 'Rigging stock',
    one: 'item',
    name: '/name',
    columns: [
      column('Name', '/name', { width: 24 }),
      column('Kind', '/kind', { width: 17 }),
      column('On hand', '/quantity', { width: 8 }),
      column('Rated', '/rated'),
      column('Length', '/length'),
      column('Mass of one', '/mass'),
      column('Design factor', '/designFactor', { width: 8 }),
      column('Certificate until', '/certificateUntil'),
    ],
  },
]

const PROGRAMME: readonly (Collection | Single)[] = [
  {
    at: '/programme',
    title: 'Dates and rules',
    without: [
      'calendars',
      'resources',
      'rates',
      'activities',
      'ways',
      'adjustments',
      'setUps',
      'deliveries',
      'changeWork',
      'options',
      'causes',
      'failing',
    ].map((name) => `/programme/${name}`),
  },
  {
    at: '/programme/activities',
    title: 'Activities',
    one: 'activity',
    name: '/name',
    columns: [
      column('Name', '/name', { width: 36 }),
      column('Calendar', '/calendar', { width: 11 }),
      column('Least, d', '/days/0', { width: 8 }),
      column('Likely, d', '/days/1', { width: 8 }),
      column('Most, d', '/days/2', { width: 8 }),
      column('Needs', '/needs', { width: 28 }),
      column('Not before', '/notBefore'),
      column('Finish by', '/finishBy'),
      column('Hold point', '/holdPoint', { width: 24 }),
      column('Phase', '/phase', { width: 14 }),
    ],
  },
  {
    at: '/programme/ways',
    title: 'Other ways to do an activity',
    one: 'way',
    name: '/what',
    columns: [
      column('What', '/what', { width: 34 }),
      column('For activities', '/of/activities', { width: 26 }),
      column('Kinds', '/of/kinds', { width: 14 }),
      column('Phases', '/of/phases', { width: 14 }),
      column('Of the usual work', '/work', { width: 9 }),
      column('Holds instead', '/needs', { width: 18 }),
      column('Calendar', '/calendar', { width: 11 }),
      column('Fixed cost', '/fixedCost', { width: 9 }),
      column('Note', '/note', { width: 22 }),
    ],
  },
  {
    at: '/programme/adjustments',
    title: 'What the planner adjusts',
    one: 'adjustment',
    columns: [
      column('Reason', '/reason', { width: 44 }),
      column('Way', '/way', { width: 14 }),
      column('Least, d', '/days/0', { width: 8 }),
      column('Likely, d', '/days/1', { width: 8 }),
      column('Most, d', '/days/2', { width: 8 }),
      column('Calendar', '/calendar', { width: 11 }),
      column('Needs', '/needs', { width: 18 }),
      column('Not before', '/notBefore'),
      column('Finish by', '/finishBy'),
    ],
  },
  {
    at: '/programme/setUps',
    title: 'Set-up between kinds of work',
    one: 'set-up',
    name: '/what',
    columns: [column('What', '/what', { width: 60 }), column('Resource', '/resource', { width: 10 }), note],
  },
  {
    at: '/programme/deliveries',
    title: 'Deliveries',
    one: 'delivery',
    name: '/what',
    columns: [
      column('What', '/what', { width: 36 }),
      column('Activity', '/activity', { width: 10 }),
      column('Needed by', '/neededBy', { width: 24 }),
      column('By changes', '/neededByChanges', { width: 20 }),
      column('By the return of', '/neededByReturn', { width: 24 }),
      column('Reserve', '/reserve', { width: 10 }),
    ],
  },
  {
    at: '/programme/resources',
    title: 'Resources',
    one: 'resource',
    name: '/name',
    columns: [
      column('Name', '/name', { width: 34 }),
      column('Kind', '/kind', { width: 8 }),
      column('Capacity', '/capacity', { width: 9 }),
      column('Calendar', '/calendar', { width: 12 }),
      column('Stands for', '/stands', { width: 11 }),
      column('Cost of a day', '/costPerDay', { width: 11 }),
    ],
  },
  {
    at: '/programme/calendars',
    title: 'Calendars',
    one: 'calendar',
    columns: [
      column('Days', '/days', { width: 32 }),
      column('Productive hours', '/hoursPerDay', { width: 10 }),
      column('Wind', '/windLimited', { width: 7 }),
      column('Holidays', '/holidays', { width: 50 }),
    ],
  },
  {
    at: '/programme/rates',
    title: 'Rates',
    one: 'rate',
    name: '/what',
    columns: [
      column('What', '/what', { width: 40 }),
      column('Value', '/value', { width: 10 }),
      column('Unit', '/unit', { width: 14 }),
      column('Basis', '/basis', { width: 40 }),
    ],
  },
  {
    at: '/programme/changeWork',
    title: 'Work on changes',
    one: 'work',
    columns: [
      column('Least, d', '/days/0', { width: 8 }),
      column('Likely, d', '/days/1', { width: 8 }),
      column('Most, d', '/days/2', { width: 8 }),
      column('Calendar', '/calendar', { width: 12 }),
      column('Needs', '/needs', { width: 28 }),
      column('After step', '/afterStep', { width: 18 }),
      column('Before return', '/beforeReturn', { width: 18 }),
      column('Hold point', '/holdPoint', { width: 24 }),
    ],
  },
  {
    at: '/programme/options',
    title: 'What buys time',
    one: 'option',
    name: '/what',
    columns: [
      column('What', '/what', { width: 44 }),
      column('Activity', '/activity', { width: 14 }),
      column('Days saved: least', '/daysSaved/0', { width: 8 }),
      column('Likely', '/daysSaved/1', { width: 8 }),
      column('Most', '/daysSaved/2', { width: 8 }),
      column('Cost', '/cost', { width: 11 }),
    ],
  },
  {
    at: '/tests',
    title: 'Tests',
    one: 'test',
    name: '/test',
    columns: [
      column('Test', '/test', { width: 34 }),
      column('System', '/system', { width: 12 }),
      column('Passes at', '/passLimit', { width: 26 }),
      column('Proves', '/proves', { width: 11 }),
      column('At least', '/limit/atLeast', { width: 8 }),
      column('At most', '/limit/atMost', { width: 8 }),
      column('Oil code', '/limit/code', { width: 9 }),
      column('Unit', '/unit', { width: 14 }),
      column('Duration', '/duration', { width: 10 }),
      column('Witness', '/witness', { width: 12 }),
      column('Hold point', '/holdPoint', { width: 7 }),
      column('Result', '/result', { width: 16 }),
      column('Procedure', '/procedure', { width: 36 }),
    ],
  },
]

const BELOW: readonly (Collection | Single)[] = [
  {
    at: '/belowGround/board',
    title: 'Board of those below ground',
    one: 'line of the board',
    name: '/who',
    columns: [column('Who', '/who', { width: 28 }), column('In', '/in'), column('Out', '/out'), note],
  },
  {
    at: '/belowGround/counts',
    title: 'Head counts',
    one: 'head count',
    columns: [
      column('At', '/at'),
      column('Below ground', '/below', { width: 9 }),
      column('By', '/by', { width: 24 }),
      column('Before', '/before', { width: 20 }),
      note,
    ],
  },
  {
    at: '/belowGround/gas',
    title: 'Places where gas is read',
    one: 'place',
    name: '/where',
    columns: [column('Where', '/where', { width: 34 }), column('Read every', '/every', { width: 10 }), note],
  },
  {
    at: '/belowGround/air',
    title: 'Fresh air',
    one: 'supply of air',
    name: '/what',
    columns: [
      column('What', '/what', { width: 34 }),
      column('Supplied', '/supplied'),
      column('On', '/on'),
      column('By', '/by', { width: 20 }),
      column('People', '/people', { width: 8 }),
      note,
    ],
  },
  {
    at: '/belowGround/ways',
    title: 'Ways out',
    one: 'way out',
    name: '/what',
    columns: [
      column('What', '/what', { width: 34 }),
      column('For a stretcher', '/rescue', { width: 9 }),
      column('Hangs on', '/system', { width: 10 }),
      column('Is', '/stands', { width: 10 }),
      column('Blocked by', '/blockedBy', { width: 20 }),
      column('Tested', '/tested/on'),
      column('By', '/tested/by', { width: 20 }),
      column('Until', '/tested/until'),
      note,
    ],
  },
  {
    at: '/belowGround/rescue',
    title: 'Rescue on call',
    one: 'team on call',
    name: '/team',
    columns: [
      column('Team', '/team', { width: 28 }),
      column('Calendars', '/calendars', { width: 20 }),
      column('From', '/from'),
      column('Until', '/until'),
      column('Reaches the shaft in', '/reach', { width: 12 }),
      note,
    ],
  },
  {
    at: '/belowGround/hotWork',
    title: 'Permits for hot work',
    one: 'permit',
    name: '/what',
    columns: [
      column('What', '/what', { width: 34 }),
      column('Activities', '/activities', { width: 28 }),
      column('From', '/from'),
      column('Until', '/until'),
      column('Signed', '/signed/on'),
      column('By', '/signed/by', { width: 20 }),
      column('Works', '/worker', { width: 18 }),
      column('Watches', '/watcher', { width: 18 }),
      column('Watch after', '/watch', { width: 9 }),
      column('Flammable gas', '/flammable', { width: 9 }),
      note,
    ],
  },
  {
    at: '/belowGround/locks',
    title: 'Air locks as found',
    one: 'lock',
    name: '/what',
    columns: [column('What', '/what', { width: 34 }), note],
  },
  {
    at: '/belowGround',
    title: 'Rules below ground',
    without: [
      '/belowGround/board',
      '/belowGround/counts',
      '/belowGround/gas',
      '/belowGround/air',
      '/belowGround/ways',
      '/belowGround/rescue',
      '/belowGround/hotWork',
      '/belowGround/locks',
    ],
  },
]

const RECORDS: readonly Collection[] = [
  {
    at: '/punchList',
    title: 'Punch list',
    one: 'item',
    name: '/what',
    columns: [
      column('What', '/what', { width: 40 }),
      column('Blocks', '/blocks', { width: 11 }),
      column('Parts', '/parts', { width: 18 }),
      column('Services', '/services', { width: 14 }),
      column('Tests', '/tests', { width: 12 }),
      column('Found by', '/found/by', { width: 18 }),
      column('On', '/found/on'),
      column('Owner', '/owner', { width: 18 }),
      column('Due', '/due'),
      column('Closed by', '/closed/by', { width: 18 }),
      column('On', '/closed/on'),
      column('Evidence', '/closed/evidence', { width: 24 }),
      note,
    ],
  },
  {
    at: '/diary',
    title: 'Shift diary',
    one: 'entry',
    columns: [
      column('Day', '/on'),
      column('From', '/shift/0', { width: 8 }),
      column('To', '/shift/1', { width: 8 }),
      column('Written by', '/by', { width: 22 }),
      column('People', '/people', { width: 30 }),
      column('Weather', '/weather/words', { width: 24 }),
      column('Gust', '/weather/gust'),
      column('Lowest, °C', '/weather/lowest', { width: 8 }),
      column('Highest, °C', '/weather/highest', { width: 8 }),
      note,
    ],
  },
]

const RISK: readonly (Collection | Single)[] = [
  {
    at: '/programme/causes',
    title: 'Causes behind many durations',
    one: 'cause',
    name: '/what',
    columns: [
      column('Cause', '/what', { width: 40 }),
      column('Chance', '/probability', { width: 8 }),
      column('Factor: least', '/factor/0', { width: 8 }),
      column('Likely', '/factor/1', { width: 8 }),
      column('Most', '/factor/2', { width: 8 }),
      column('Kinds', '/kinds', { width: 18 }),
      column('Phases', '/phases', { width: 18 }),
      column('Activities', '/activities', { width: 24 }),
    ],
  },
  {
    at: '/programme/failing',
    title: 'What may fail and is done again',
    one: 'activity that may fail',
    columns: [
      column('Chance each time', '/chance', { width: 10 }),
      column('Again: least, d', '/againDays/0', { width: 8 }),
      column('Likely, d', '/againDays/1', { width: 8 }),
      column('Most, d', '/againDays/2', { width: 8 }),
      column('Note', '/note', { width: 40 }),
    ],
  },
  {
    at: '/risks',
    title: 'Risks',
    one: 'risk',
    name: '/risk',
    columns: [
      column('Risk', '/risk', { width: 40 }),
      column('Chance', '/probability', { width: 8 }),
      column('Low, d', '/delayDays/0', { width: 7 }),
      column('Likely, d', '/delayDays/1', { width: 8 }),
      column('High, d', '/delayDays/2', { width: 7 }),
      column('Cost', '/cost', { width: 11 }),
      column('Activities', '/activities', { width: 18 }),
      column('Owner', '/owner', { width: 18 }),
      column('Mitigation', '/mitigation/what', { width: 36 }),
      column('Chance after', '/mitigation/probabilityAfter', { width: 8 }),
      column('Its cost', '/mitigation/cost', { width: 11 }),
    ],
  },
  {
    at: '/correlations',
    title: 'Risks that come together',
    one: 'pair',
    columns: [column('Between', '/between', { width: 24 }), column('Correlation', '/r', { width: 10 })],
  },
  {
    at: '/scenarios',
    title: 'Scenarios',
    one: 'scenario',
    columns: [column('Name', '/name', { width: 28 }), column('Why', '/why', { width: 44 })],
  },
]

/** Everything that can be edited, in the order of the work. */
export const GROUPS: readonly Group[] = [
  { title: 'Machine', of: MACHINE },
  { title: 'Shaft and ground', of: GROUND },
  { title: 'Site', of: SITE },
  { title: 'Lifting', of: LIFTING },
  { title: 'Programme', of: PROGRAMME },
  { title: 'People below ground', of: BELOW },
  { title: 'Records', of: RECORDS },
  { title: 'Risk', of: RISK },
  {
    title: 'Project',
    of: [
      { at: '/settings', title: 'Settings' },
      { at: '/about', title: 'About' },
    ],
  },
]

/** The table or the thing at an address. */
export const tableAt = (at: string): Collection | Single | undefined =>
  GROUPS.flatMap((group) => group.of).find((of) => of.at === at)

/** The collection that an address of one of its entities lies in, such as `/services/W-1`. */
export const tableHolding = (address: string): Collection | undefined => {
  const of = tableAt(address.replace(/\/[^/]*$/, ''))
  return of !== undefined && isCollection(of) ? of : undefined
}
