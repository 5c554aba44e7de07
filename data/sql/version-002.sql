-- The sugarbush: trees, the measures of their trunks, holes, what each tree gave, what is drawn on the ground, and one record
-- each for the ground itself and for the household's way of tapping.

CREATE TABLE tree (
  id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
  uid TEXT NOT NULL UNIQUE CHECK (length (uid) = 32 AND uid NOT GLOB '*[^0-9a-f]*'),
  archived INTEGER NOT NULL CHECK (archived IN (0, 1)),
  name TEXT NOT NULL CHECK (name <> ''),
  species TEXT NOT NULL CHECK (species IN ('sugar', 'black', 'red', 'silver', 'norway', 'bigleaf', 'boxelder',
    'other', 'birch', 'walnut')),
  x_m REAL,
  x_m_typed TEXT,
  y_m REAL,
  y_m_typed TEXT,
  elevation_m REAL,
  elevation_m_typed TEXT,
  measured_from TEXT,
  from_distance_m REAL,
  from_distance_m_typed TEXT,
  from_bearing_deg REAL,
  from_bearing_deg_typed TEXT,
  crown TEXT NOT NULL CHECK (crown IN ('unknown', 'wide', 'middling', 'narrow')),
  health TEXT NOT NULL CHECK (health IN ('unknown', 'healthy', 'weak', 'failing', 'dead')),
  dead_limbs INTEGER NOT NULL CHECK (dead_limbs IN (0, 1)),
  wires INTEGER NOT NULL CHECK (wires IN (0, 1)),
  lean INTEGER NOT NULL CHECK (lean IN (0, 1)),
  roadside INTEGER NOT NULL CHECK (roadside IN (0, 1)),
  permission TEXT NOT NULL CHECK (permission IN ('unknown', 'own', 'granted', 'refused')),
  owner TEXT,
  choice TEXT NOT NULL CHECK (choice IN ('open', 'must', 'never')),
  photo TEXT,
  note TEXT,
  foreign_data TEXT,
  CHECK ((x_m IS NULL) = (y_m IS NULL))
) STRICT;

CREATE TABLE girth (
  id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
  uid TEXT NOT NULL UNIQUE CHECK (length (uid) = 32 AND uid NOT GLOB '*[^0-9a-f]*'),
  archived INTEGER NOT NULL CHECK (archived IN (0, 1)),
  tree INTEGER NOT NULL REFERENCES tree (id) DEFERRABLE INITIALLY DEFERRED,
  measured_on TEXT NOT NULL CHECK (measured_on GLOB '[0-9][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]'),
  measure TEXT NOT NULL CHECK (measure IN ('girth', 'diameter')),
  size_m REAL NOT NULL,
  size_m_typed TEXT
) STRICT;

CREATE INDEX girth_tree ON girth (tree);

CREATE TABLE tap (
  id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
  uid TEXT NOT NULL UNIQUE CHECK (length (uid) = 32 AND uid NOT GLOB '*[^0-9a-f]*'),
  archived INTEGER NOT NULL CHECK (archived IN (0, 1)),
  tree INTEGER NOT NULL REFERENCES tree (id) DEFERRABLE INITIALLY DEFERRED,
  season REAL NOT NULL,
  season_typed TEXT,
  set_on TEXT CHECK (set_on GLOB '[0-9][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]'),
  set_by TEXT,
  depth_m REAL,
  depth_m_typed TEXT,
  bore_m REAL,
  bore_m_typed TEXT,
  height_m REAL,
  height_m_typed TEXT,
  direction_deg REAL,
  direction_deg_typed TEXT,
  spout TEXT,
  container TEXT,
  container_l REAL,
  container_l_typed TEXT,
  pulled_on TEXT CHECK (pulled_on GLOB '[0-9][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]'),
  closed_on TEXT CHECK (closed_on GLOB '[0-9][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]'),
  note TEXT,
  CHECK (season = CAST (season AS INTEGER)),
  CHECK (pulled_on IS NULL OR pulled_on >= set_on),
  CHECK (closed_on IS NULL OR closed_on >= set_on)
) STRICT;

CREATE INDEX tap_tree ON tap (tree);

CREATE TABLE yield (
  id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
  uid TEXT NOT NULL UNIQUE CHECK (length (uid) = 32 AND uid NOT GLOB '*[^0-9a-f]*'),
  archived INTEGER NOT NULL CHECK (archived IN (0, 1)),
  tree INTEGER NOT NULL REFERENCES tree (id) DEFERRABLE INITIALLY DEFERRED,
  season REAL NOT NULL,
  season_typed TEXT,
  volume_l REAL,
  volume_l_typed TEXT,
  reading_brix REAL,
  reading_brix_typed TEXT,
  instrument TEXT NOT NULL CHECK (instrument IN ('refractometer_atc', 'refractometer', 'hydrometer_38f',
    'hydrometer_60f', 'hydrometer_68f', 'guess')),
  sample_c REAL,
  sample_c_typed TEXT,
  note TEXT,
  CHECK (season = CAST (season AS INTEGER))
) STRICT;

CREATE INDEX yield_tree ON yield (tree);

CREATE TABLE feature (
  id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
  uid TEXT NOT NULL UNIQUE CHECK (length (uid) = 32 AND uid NOT GLOB '*[^0-9a-f]*'),
  archived INTEGER NOT NULL CHECK (archived IN (0, 1)),
  name TEXT,
  form TEXT NOT NULL CHECK (form IN ('path', 'lane', 'wall', 'stream', 'building', 'boiling', 'store')),
  points TEXT NOT NULL CHECK (points <> '')
) STRICT;

CREATE TABLE ground (
  id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
  uid TEXT NOT NULL UNIQUE CHECK (length (uid) = 32 AND uid NOT GLOB '*[^0-9a-f]*'),
  archived INTEGER NOT NULL CHECK (archived IN (0, 1)),
  anchor_x_m REAL,
  anchor_x_m_typed TEXT,
  anchor_y_m REAL,
  anchor_y_m_typed TEXT,
  anchor_lat_deg REAL,
  anchor_lat_deg_typed TEXT,
  anchor_lon_deg REAL,
  anchor_lon_deg_typed TEXT,
  declination_deg REAL,
  declination_deg_typed TEXT,
  picture TEXT,
  picture_shown INTEGER NOT NULL CHECK (picture_shown IN (0, 1)),
  first_column REAL,
  first_column_typed TEXT,
  first_row REAL,
  first_row_typed TEXT,
  first_x_m REAL,
  first_x_m_typed TEXT,
  first_y_m REAL,
  first_y_m_typed TEXT,
  second_column REAL,
  second_column_typed TEXT,
  second_row REAL,
  second_row_typed TEXT,
  second_x_m REAL,
  second_x_m_typed TEXT,
  second_y_m REAL,
  second_y_m_typed TEXT
) STRICT;

CREATE UNIQUE INDEX ground_is_one ON ground ((1));

CREATE TABLE tapping (
  id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
  uid TEXT NOT NULL UNIQUE CHECK (length (uid) = 32 AND uid NOT GLOB '*[^0-9a-f]*'),
  archived INTEGER NOT NULL CHECK (archived IN (0, 1)),
  guideline TEXT NOT NULL CHECK (guideline IN ('conservative', 'one_tap', 'facts', 'traditional')),
  spacing TEXT NOT NULL CHECK (spacing IN ('six_twelve', 'six_twentyfour', 'four_twelve', 'two_six', 'own')),
  sideways_m REAL,
  sideways_m_typed TEXT,
  up_down_m REAL,
  up_down_m_typed TEXT,
  min_height_m REAL,
  min_height_m_typed TEXT,
  max_height_m REAL,
  max_height_m_typed TEXT,
  pail_l REAL,
  pail_l_typed TEXT,
  buckets REAL,
  buckets_typed TEXT,
  max_trees REAL,
  max_trees_typed TEXT,
  walk_m REAL,
  walk_m_typed TEXT,
  peak_boil_l REAL,
  peak_boil_l_typed TEXT,
  season_days REAL,
  season_days_typed TEXT,
  peak_ratio REAL,
  peak_ratio_typed TEXT,
  CHECK (min_height_m <= max_height_m)
) STRICT;

CREATE UNIQUE INDEX tapping_is_one ON tapping ((1));
