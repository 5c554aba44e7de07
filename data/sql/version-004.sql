-- Weather: where it comes from, the days of each source, what was told ahead, and one record for how the household has it told.

CREATE TABLE station (
  id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
  uid TEXT NOT NULL UNIQUE CHECK (length (uid) = 32 AND uid NOT GLOB '*[^0-9a-f]*'),
  archived INTEGER NOT NULL CHECK (archived IN (0, 1)),
  name TEXT NOT NULL CHECK (name <> ''),
  source TEXT NOT NULL CHECK (source IN ('file', 'met-norway', 'nws', 'open-meteo', 'other')),
  station_key TEXT,
  latitude_deg REAL,
  latitude_deg_typed TEXT,
  longitude_deg REAL,
  longitude_deg_typed TEXT,
  altitude_m REAL,
  altitude_m_typed TEXT,
  reading_minute REAL,
  reading_minute_typed TEXT,
  shift_highs TEXT NOT NULL CHECK (shift_highs IN ('unknown', 'no', 'yes')),
  low_offset_k REAL,
  low_offset_k_typed TEXT,
  high_offset_k REAL,
  high_offset_k_typed TEXT,
  attribution TEXT,
  note TEXT,
  CHECK (reading_minute = CAST (reading_minute AS INTEGER))
) STRICT;

CREATE TABLE station_day (
  id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
  uid TEXT NOT NULL UNIQUE CHECK (length (uid) = 32 AND uid NOT GLOB '*[^0-9a-f]*'),
  archived INTEGER NOT NULL CHECK (archived IN (0, 1)),
  station INTEGER NOT NULL REFERENCES station (id) DEFERRABLE INITIALLY DEFERRED,
  day TEXT NOT NULL CHECK (day GLOB '[0-9][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]'),
  low_c REAL,
  low_c_typed TEXT,
  high_c REAL,
  high_c_typed TEXT,
  rain_m REAL,
  rain_m_typed TEXT,
  snow_m REAL,
  snow_m_typed TEXT,
  sun_j_per_m2 REAL,
  sun_j_per_m2_typed TEXT,
  low_mark TEXT NOT NULL CHECK (low_mark IN ('plain', 'absent', 'estimated', 'refused')),
  high_mark TEXT NOT NULL CHECK (high_mark IN ('plain', 'absent', 'estimated', 'refused'))
) STRICT;

CREATE UNIQUE INDEX station_day_is_one ON station_day (station, day) WHERE archived = 0;

CREATE INDEX station_day_station ON station_day (station, day);

CREATE INDEX station_day_time ON station_day (day);

CREATE TABLE outlook (
  id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
  uid TEXT NOT NULL UNIQUE CHECK (length (uid) = 32 AND uid NOT GLOB '*[^0-9a-f]*'),
  archived INTEGER NOT NULL CHECK (archived IN (0, 1)),
  station INTEGER NOT NULL REFERENCES station (id) DEFERRABLE INITIALLY DEFERRED,
  issued_utc INTEGER NOT NULL,
  fetched_utc INTEGER,
  body TEXT NOT NULL CHECK (body <> '')
) STRICT;

CREATE UNIQUE INDEX outlook_is_one ON outlook (station, issued_utc) WHERE archived = 0;

CREATE INDEX outlook_station ON outlook (station, issued_utc);

CREATE INDEX outlook_time ON outlook (issued_utc);

CREATE TABLE forecasting (
  id INTEGER PRIMARY KEY AUTOINCREMENT CHECK (id > 0),
  uid TEXT NOT NULL UNIQUE CHECK (length (uid) = 32 AND uid NOT GLOB '*[^0-9a-f]*'),
  archived INTEGER NOT NULL CHECK (archived IN (0, 1)),
  service TEXT NOT NULL CHECK (service IN ('off', 'met-norway', 'nws', 'open-meteo')),
  base_address TEXT,
  contact TEXT,
  gather_minute REAL,
  gather_minute_typed TEXT,
  error_first_k REAL,
  error_first_k_typed TEXT,
  error_week_k REAL,
  error_week_k_typed TEXT,
  error_memory_ratio REAL,
  error_memory_ratio_typed TEXT,
  CHECK (gather_minute = CAST (gather_minute AS INTEGER))
) STRICT;

CREATE UNIQUE INDEX forecasting_is_one ON forecasting ((1));
