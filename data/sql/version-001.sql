-- The first book. Amounts stand in their inner unit (named in the column) with the words they were typed in beside them;
-- NULL is unknown. Instants are UTC seconds, days ISO dates. References are checked at the end of a change. Ids are not
-- used again (AUTOINCREMENT), so that the diary stays unambiguous.

CREATE TABLE household (
  id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
  uid TEXT NOT NULL UNIQUE CHECK (length (uid) = 32 AND uid NOT GLOB '*[^0-9a-f]*'),
  archived INTEGER NOT NULL CHECK (archived IN (0, 1)),
  name TEXT NOT NULL CHECK (name <> ''),
  place TEXT,
  zone TEXT NOT NULL CHECK (zone <> ''),
  currency TEXT NOT NULL CHECK (currency GLOB '[A-Z][A-Z][A-Z]'),
  units TEXT NOT NULL CHECK (units IN ('metric', 'us', 'imperial')),
  sweetness TEXT NOT NULL CHECK (sweetness IN ('brix', 'baume')),
  measures TEXT,
  altitude_m REAL,
  altitude_m_typed TEXT,
  syrup_brix REAL,
  syrup_brix_typed TEXT,
  jar_l REAL,
  jar_l_typed TEXT
) STRICT;

-- One household a book.
CREATE UNIQUE INDEX household_is_one ON household ((1));

CREATE TABLE circuit (
  id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
  uid TEXT NOT NULL UNIQUE CHECK (length (uid) = 32 AND uid NOT GLOB '*[^0-9a-f]*'),
  archived INTEGER NOT NULL CHECK (archived IN (0, 1)),
  name TEXT NOT NULL CHECK (name <> ''),
  breaker_a REAL NOT NULL,
  breaker_a_typed TEXT,
  volts_v REAL NOT NULL,
  volts_v_typed TEXT,
  other_load_w REAL,
  other_load_w_typed TEXT,
  gfci INTEGER NOT NULL CHECK (gfci IN (0, 1))
) STRICT;

CREATE TABLE vessel (
  id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
  uid TEXT NOT NULL UNIQUE CHECK (length (uid) = 32 AND uid NOT GLOB '*[^0-9a-f]*'),
  archived INTEGER NOT NULL CHECK (archived IN (0, 1)),
  name TEXT NOT NULL CHECK (name <> ''),
  shape TEXT NOT NULL CHECK (shape IN ('cylinder', 'cone', 'cap', 'box', 'table')),
  diameter_m REAL,
  diameter_m_typed TEXT,
  top_diameter_m REAL,
  top_diameter_m_typed TEXT,
  flat_diameter_m REAL,
  flat_diameter_m_typed TEXT,
  length_m REAL,
  length_m_typed TEXT,
  width_m REAL,
  width_m_typed TEXT,
  corner_m REAL,
  corner_m_typed TEXT,
  height_m REAL,
  height_m_typed TEXT,
  rows TEXT,
  hold_l REAL NOT NULL,
  hold_l_typed TEXT,
  cutoff_l REAL,
  cutoff_l_typed TEXT,
  min_level_l REAL,
  min_level_l_typed TEXT,
  foam_ratio REAL,
  foam_ratio_typed TEXT,
  cover TEXT NOT NULL CHECK (cover IN ('bare', 'foil', 'wrapped')),
  wall_w_per_k REAL,
  wall_w_per_k_typed TEXT,
  bucket_l REAL,
  bucket_l_typed TEXT,
  feed TEXT NOT NULL CHECK (feed IN ('level', 'stream', 'hole')),
  head_m REAL,
  head_m_typed TEXT,
  hole_m REAL,
  hole_m_typed TEXT,
  solder INTEGER NOT NULL CHECK (solder IN (0, 1)),
  CHECK (cutoff_l < hold_l)
) STRICT;

CREATE TABLE cooker (
  id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
  uid TEXT NOT NULL UNIQUE CHECK (length (uid) = 32 AND uid NOT GLOB '*[^0-9a-f]*'),
  archived INTEGER NOT NULL CHECK (archived IN (0, 1)),
  name TEXT NOT NULL CHECK (name <> ''),
  power_w REAL NOT NULL,
  power_w_typed TEXT,
  heat_ratio REAL NOT NULL,
  heat_ratio_typed TEXT,
  heat_ratio_sd REAL,
  heat_ratio_sd_typed TEXT,
  ratio_holds_wall INTEGER NOT NULL CHECK (ratio_holds_wall IN (0, 1)),
  reflux_ratio REAL,
  reflux_ratio_typed TEXT,
  vessel INTEGER NOT NULL REFERENCES vessel (id) DEFERRABLE INITIALLY DEFERRED,
  circuit INTEGER REFERENCES circuit (id) DEFERRABLE INITIALLY DEFERRED,
  place TEXT NOT NULL CHECK (place IN ('outdoors', 'shed', 'indoors')),
  cutoff_by TEXT NOT NULL CHECK (cutoff_by IN ('weight', 'thermostat', 'float', 'timer', 'none'))
) STRICT;

CREATE INDEX cooker_vessel ON cooker (vessel);
CREATE INDEX cooker_circuit ON cooker (circuit);

CREATE TABLE tariff (
  id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
  uid TEXT NOT NULL UNIQUE CHECK (length (uid) = 32 AND uid NOT GLOB '*[^0-9a-f]*'),
  archived INTEGER NOT NULL CHECK (archived IN (0, 1)),
  name TEXT NOT NULL CHECK (name <> ''),
  periods TEXT NOT NULL CHECK (periods <> ''),
  holidays TEXT,
  adder_per_kwh REAL,
  adder_per_kwh_typed TEXT,
  tax_ratio REAL,
  tax_ratio_typed TEXT,
  in_use INTEGER NOT NULL CHECK (in_use IN (0, 1))
) STRICT;

CREATE TABLE fuel (
  id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
  uid TEXT NOT NULL UNIQUE CHECK (length (uid) = 32 AND uid NOT GLOB '*[^0-9a-f]*'),
  archived INTEGER NOT NULL CHECK (archived IN (0, 1)),
  name TEXT NOT NULL CHECK (name <> ''),
  fuel TEXT NOT NULL CHECK (fuel IN ('propane')),
  price_per_kg REAL NOT NULL,
  price_per_kg_typed TEXT,
  heat_mj_per_kg REAL NOT NULL,
  heat_mj_per_kg_typed TEXT,
  heat_ratio REAL NOT NULL,
  heat_ratio_typed TEXT,
  flame INTEGER NOT NULL CHECK (flame IN (0, 1))
) STRICT;

CREATE TABLE sap_lot (
  id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
  uid TEXT NOT NULL UNIQUE CHECK (length (uid) = 32 AND uid NOT GLOB '*[^0-9a-f]*'),
  archived INTEGER NOT NULL CHECK (archived IN (0, 1)),
  collected_utc INTEGER NOT NULL,
  volume_l REAL NOT NULL CHECK (volume_l >= 0),
  volume_l_typed TEXT,
  reading_brix REAL NOT NULL,
  reading_brix_typed TEXT,
  instrument TEXT NOT NULL CHECK (instrument IN ('refractometer_atc', 'refractometer', 'hydrometer_38f',
    'hydrometer_60f', 'hydrometer_68f', 'guess')),
  sample_c REAL,
  sample_c_typed TEXT,
  store_c REAL,
  store_c_typed TEXT,
  used_l REAL CHECK (used_l >= 0),
  used_l_typed TEXT,
  note TEXT
) STRICT;

CREATE TABLE night (
  id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
  uid TEXT NOT NULL UNIQUE CHECK (length (uid) = 32 AND uid NOT GLOB '*[^0-9a-f]*'),
  archived INTEGER NOT NULL CHECK (archived IN (0, 1)),
  evening TEXT NOT NULL CHECK (evening GLOB '[0-9][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]'),
  cooker INTEGER NOT NULL REFERENCES cooker (id) DEFERRABLE INITIALLY DEFERRED,
  start_utc INTEGER NOT NULL,
  off_by_utc INTEGER CHECK (off_by_utc >= start_utc),
  pan_l REAL NOT NULL,
  pan_l_typed TEXT,
  pan_brix REAL,
  pan_brix_typed TEXT,
  pan_c REAL,
  pan_c_typed TEXT,
  bucket_l REAL,
  bucket_l_typed TEXT,
  sap_brix REAL,
  sap_brix_typed TEXT,
  sap_c REAL,
  sap_c_typed TEXT,
  air_c REAL,
  air_c_typed TEXT,
  water_boils_c REAL,
  water_boils_c_typed TEXT,
  max_brix REAL,
  max_brix_typed TEXT,
  heat_ratio REAL,
  heat_ratio_typed TEXT,
  plan_dry_utc INTEGER CHECK (plan_dry_utc >= start_utc),
  plan_end_utc INTEGER CHECK (plan_end_utc >= start_utc),
  plan_left_l REAL,
  plan_left_l_typed TEXT,
  plan_brix REAL,
  plan_brix_typed TEXT,
  plan_energy_kwh REAL,
  plan_energy_kwh_typed TEXT,
  plan_cost REAL,
  plan_cost_typed TEXT,
  left_l REAL,
  left_l_typed TEXT,
  left_brix REAL,
  left_brix_typed TEXT,
  left_boil_c REAL,
  left_boil_c_typed TEXT,
  bucket_left_l REAL,
  bucket_left_l_typed TEXT,
  meter_kwh REAL,
  meter_kwh_typed TEXT,
  end_utc INTEGER CHECK (end_utc >= start_utc),
  learned_ratio REAL,
  learned_ratio_typed TEXT,
  learned_ratio_sd REAL,
  learned_ratio_sd_typed TEXT,
  note TEXT
) STRICT;

CREATE INDEX night_cooker ON night (cooker);
CREATE INDEX night_evening ON night (evening);

-- What was changed, when, from where, with the images before and after as JSON. It only grows.
CREATE TABLE diary (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  utc_s INTEGER NOT NULL,
  label TEXT NOT NULL CHECK (label <> ''),
  subject TEXT,
  origin TEXT NOT NULL CHECK (origin IN ('window', 'cli', 'import', 'demo')),
  steps TEXT NOT NULL CHECK (steps GLOB '[[]*]')
) STRICT;

CREATE TRIGGER diary_keeps_rows BEFORE DELETE ON diary
BEGIN
  SELECT RAISE (ABORT, 'the diary only grows');
END;

CREATE TRIGGER diary_keeps_words BEFORE UPDATE ON diary
BEGIN
  SELECT RAISE (ABORT, 'the diary only grows');
END;

-- INSERT OR REPLACE would delete without asking the trigger above. A new row without an id shows −1 here.
CREATE TRIGGER diary_keeps_order BEFORE INSERT ON diary
WHEN NEW.id > 0 AND EXISTS (SELECT 1 FROM diary WHERE id >= NEW.id)
BEGIN
  SELECT RAISE (ABORT, 'the diary only grows');
END;
