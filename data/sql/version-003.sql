-- The season: containers, gatherings, what was poured and found, days, checklists, reminders put away, one record for the household's
-- ways of keeping sap; and the group a tree is gathered with.

ALTER TABLE tree ADD COLUMN stand TEXT;

CREATE TABLE container (
  id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
  uid TEXT NOT NULL UNIQUE CHECK (length (uid) = 32 AND uid NOT GLOB '*[^0-9a-f]*'),
  archived INTEGER NOT NULL CHECK (archived IN (0, 1)),
  name TEXT NOT NULL CHECK (name <> ''),
  role TEXT NOT NULL CHECK (role IN ('store', 'bucket')),
  capacity_l REAL NOT NULL,
  capacity_l_typed TEXT,
  place TEXT NOT NULL CHECK (place IN ('outdoors', 'shed', 'snowbank', 'fridge', 'cellar', 'indoors')),
  insulation TEXT NOT NULL CHECK (insulation IN ('bare', 'wrapped', 'chest')),
  material TEXT NOT NULL CHECK (material IN ('unknown', 'food_plastic', 'other_plastic', 'stainless', 'enamel',
    'glass', 'aluminium', 'galvanised', 'soldered')),
  made_in REAL,
  made_in_typed TEXT,
  diameter_m REAL,
  diameter_m_typed TEXT,
  top_diameter_m REAL,
  top_diameter_m_typed TEXT,
  height_m REAL,
  height_m_typed TEXT,
  empty_kg REAL,
  empty_kg_typed TEXT,
  note TEXT,
  CHECK (made_in = CAST (made_in AS INTEGER))
) STRICT;

CREATE TABLE gathering (
  id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
  uid TEXT NOT NULL UNIQUE CHECK (length (uid) = 32 AND uid NOT GLOB '*[^0-9a-f]*'),
  archived INTEGER NOT NULL CHECK (archived IN (0, 1)),
  gathered_utc INTEGER NOT NULL,
  scope TEXT NOT NULL CHECK (scope IN ('bush', 'group', 'tree', 'tap')),
  tree INTEGER REFERENCES tree (id) DEFERRABLE INITIALLY DEFERRED,
  tap INTEGER REFERENCES tap (id) DEFERRABLE INITIALLY DEFERRED,
  stand TEXT,
  measured_by TEXT NOT NULL CHECK (measured_by IN ('volume', 'weight', 'depth')),
  volume_l REAL,
  volume_l_typed TEXT,
  weight_kg REAL,
  weight_kg_typed TEXT,
  depth_m REAL,
  depth_m_typed TEXT,
  bucket INTEGER REFERENCES container (id) DEFERRABLE INITIALLY DEFERRED,
  reading_brix REAL,
  reading_brix_typed TEXT,
  instrument TEXT NOT NULL CHECK (instrument IN ('refractometer_atc', 'refractometer', 'hydrometer_38f',
    'hydrometer_60f', 'hydrometer_68f', 'guess')),
  sample_c REAL,
  sample_c_typed TEXT,
  sap_c REAL,
  sap_c_typed TEXT,
  clarity TEXT NOT NULL CHECK (clarity IN ('unknown', 'clear', 'hazy', 'cloudy', 'yellow')),
  smell TEXT NOT NULL CHECK (smell IN ('unknown', 'fresh', 'sour', 'buddy', 'other')),
  who TEXT,
  container INTEGER REFERENCES container (id) DEFERRABLE INITIALLY DEFERRED,
  ice_l REAL,
  ice_l_typed TEXT,
  ice_brix REAL,
  ice_brix_typed TEXT,
  confirmed INTEGER NOT NULL CHECK (confirmed IN (0, 1)),
  note TEXT
) STRICT;

CREATE INDEX gathering_time ON gathering (gathered_utc);

CREATE INDEX gathering_tree ON gathering (tree);

CREATE INDEX gathering_tap ON gathering (tap);

CREATE INDEX gathering_bucket ON gathering (bucket);

CREATE INDEX gathering_container ON gathering (container);

CREATE TABLE pour (
  id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
  uid TEXT NOT NULL UNIQUE CHECK (length (uid) = 32 AND uid NOT GLOB '*[^0-9a-f]*'),
  archived INTEGER NOT NULL CHECK (archived IN (0, 1)),
  poured_utc INTEGER NOT NULL,
  reason TEXT NOT NULL CHECK (reason IN ('moved', 'boiled', 'ice', 'spilled', 'spoiled', 'drunk')),
  container INTEGER REFERENCES container (id) DEFERRABLE INITIALLY DEFERRED,
  target INTEGER REFERENCES container (id) DEFERRABLE INITIALLY DEFERRED,
  volume_l REAL NOT NULL,
  volume_l_typed TEXT,
  reading_brix REAL,
  reading_brix_typed TEXT,
  instrument TEXT NOT NULL CHECK (instrument IN ('refractometer_atc', 'refractometer', 'hydrometer_38f',
    'hydrometer_60f', 'hydrometer_68f', 'guess')),
  sample_c REAL,
  sample_c_typed TEXT,
  night INTEGER REFERENCES night (id) DEFERRABLE INITIALLY DEFERRED,
  confirmed INTEGER NOT NULL CHECK (confirmed IN (0, 1)),
  note TEXT,
  CHECK (reason = 'moved' OR target IS NULL)
) STRICT;

CREATE INDEX pour_time ON pour (poured_utc);

CREATE INDEX pour_container ON pour (container);

CREATE INDEX pour_target ON pour (target);

CREATE INDEX pour_night ON pour (night);

CREATE TABLE dip (
  id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
  uid TEXT NOT NULL UNIQUE CHECK (length (uid) = 32 AND uid NOT GLOB '*[^0-9a-f]*'),
  archived INTEGER NOT NULL CHECK (archived IN (0, 1)),
  found_utc INTEGER NOT NULL,
  container INTEGER REFERENCES container (id) DEFERRABLE INITIALLY DEFERRED,
  measured_by TEXT NOT NULL CHECK (measured_by IN ('volume', 'weight', 'depth')),
  volume_l REAL,
  volume_l_typed TEXT,
  weight_kg REAL,
  weight_kg_typed TEXT,
  depth_m REAL,
  depth_m_typed TEXT,
  reading_brix REAL,
  reading_brix_typed TEXT,
  instrument TEXT NOT NULL CHECK (instrument IN ('refractometer_atc', 'refractometer', 'hydrometer_38f',
    'hydrometer_60f', 'hydrometer_68f', 'guess')),
  sample_c REAL,
  sample_c_typed TEXT,
  temp_c REAL,
  temp_c_typed TEXT,
  ice_ratio REAL,
  ice_ratio_typed TEXT,
  clarity TEXT NOT NULL CHECK (clarity IN ('unknown', 'clear', 'hazy', 'cloudy', 'yellow')),
  smell TEXT NOT NULL CHECK (smell IN ('unknown', 'fresh', 'sour', 'buddy', 'other')),
  confirmed INTEGER NOT NULL CHECK (confirmed IN (0, 1)),
  note TEXT
) STRICT;

CREATE INDEX dip_time ON dip (found_utc);

CREATE INDEX dip_container ON dip (container);

CREATE TABLE day (
  id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
  uid TEXT NOT NULL UNIQUE CHECK (length (uid) = 32 AND uid NOT GLOB '*[^0-9a-f]*'),
  archived INTEGER NOT NULL CHECK (archived IN (0, 1)),
  day TEXT NOT NULL CHECK (day GLOB '[0-9][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]'),
  low_c REAL,
  low_c_typed TEXT,
  high_c REAL,
  high_c_typed TEXT,
  expected INTEGER NOT NULL CHECK (expected IN (0, 1)),
  rain_m REAL,
  rain_m_typed TEXT,
  buds TEXT NOT NULL CHECK (buds IN ('unknown', 'tight', 'swelling', 'open')),
  note TEXT
) STRICT;

CREATE UNIQUE INDEX day_is_one ON day (day) WHERE archived = 0;

CREATE INDEX day_time ON day (day);

CREATE TABLE chore (
  id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
  uid TEXT NOT NULL UNIQUE CHECK (length (uid) = 32 AND uid NOT GLOB '*[^0-9a-f]*'),
  archived INTEGER NOT NULL CHECK (archived IN (0, 1)),
  season REAL NOT NULL,
  season_typed TEXT,
  task TEXT NOT NULL CHECK (task IN ('wash', 'water_test', 'material', 'ground_fault', 'rinse', 'dry')),
  container INTEGER REFERENCES container (id) DEFERRABLE INITIALLY DEFERRED,
  vessel INTEGER REFERENCES vessel (id) DEFERRABLE INITIALLY DEFERRED,
  cooker INTEGER REFERENCES cooker (id) DEFERRABLE INITIALLY DEFERRED,
  circuit INTEGER REFERENCES circuit (id) DEFERRABLE INITIALLY DEFERRED,
  done_on TEXT NOT NULL CHECK (done_on GLOB '[0-9][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]'),
  outcome TEXT NOT NULL CHECK (outcome IN ('done', 'not_needed')),
  who TEXT,
  note TEXT,
  CHECK (season = CAST (season AS INTEGER))
) STRICT;

CREATE TABLE dismissal (
  id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
  uid TEXT NOT NULL UNIQUE CHECK (length (uid) = 32 AND uid NOT GLOB '*[^0-9a-f]*'),
  archived INTEGER NOT NULL CHECK (archived IN (0, 1)),
  about TEXT NOT NULL CHECK (about <> ''),
  dismissed_utc INTEGER NOT NULL
) STRICT;

CREATE TABLE storing (
  id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
  uid TEXT NOT NULL UNIQUE CHECK (length (uid) = 32 AND uid NOT GLOB '*[^0-9a-f]*'),
  archived INTEGER NOT NULL CHECK (archived IN (0, 1)),
  keeping TEXT NOT NULL CHECK (keeping IN ('careful', 'published', 'own')),
  own_rows TEXT,
  tap_weeks REAL,
  tap_weeks_typed TEXT,
  filters REAL,
  filters_typed TEXT,
  bottles REAL,
  bottles_typed TEXT,
  calendar_folder TEXT,
  CHECK (tap_weeks = CAST (tap_weeks AS INTEGER)),
  CHECK (filters = CAST (filters AS INTEGER)),
  CHECK (bottles = CAST (bottles AS INTEGER))
) STRICT;

CREATE UNIQUE INDEX storing_is_one ON storing ((1));

-- What was kept as lots of sap goes on as gatherings of the whole bush whose place was not said; what nights had taken from them is
-- poured at once, for when was never written down.

INSERT INTO gathering (uid, archived, gathered_utc, scope, measured_by, volume_l, volume_l_typed, reading_brix, reading_brix_typed,
    instrument, sample_c, sample_c_typed, sap_c, sap_c_typed, clarity, smell, confirmed, note)
  SELECT uid, archived, collected_utc, 'bush', 'volume', volume_l, volume_l_typed, reading_brix, reading_brix_typed,
      instrument, sample_c, sample_c_typed, iif (store_c BETWEEN -10 AND 60, store_c, NULL),
      iif (store_c BETWEEN -10 AND 60, store_c_typed, NULL), 'unknown', 'unknown', 1, note
    FROM sap_lot ORDER BY id;

INSERT INTO pour (uid, archived, poured_utc, reason, volume_l, volume_l_typed, instrument, confirmed)
  SELECT lower (hex (randomblob (16))), archived, collected_utc, 'boiled', used_l, used_l_typed, 'guess', 1
    FROM sap_lot WHERE used_l > 0 ORDER BY id;

DROP TABLE sap_lot;
