/* A web server in this process, on this main context, and a household that asks it: what each question said,
 * and what it was answered. While a question is out, the loop ticks, and the longest while between two ticks
 * is measured. */
#pragma once

#include <libsoup/soup.h>

#include "fetch/weather-fetch.h"

#define STAGE_NOW 1774008000 /* 2026-03-20 12:00 UTC */
#define STAGE_BODY "{\"air_temp_c\": -3.5}"
#define STAGE_HOUR 3600

typedef struct _Stage Stage;
typedef void (*StageAnswer) (Stage *stage, SoupServerMessage *message);

struct _Stage
{
  SoupServer *server;
  GSocketService *service;
  char *base;
  char *secure_base;            /* the same with https */
  GTlsCertificate *certificate; /* the server speaks https with it, or NULL */
  char *folder;
  FrWeatherAsk ask;
  StageAnswer answer;
  SoupHTTPVersion version; /* of the last question */
  GUri *uri;               /* of the last question */
  GHashTable *head;        /* of the last question: name in small letters → value */
  guint n_asked;
  guint n_ticks;
  gint64 longest_us;     /* between two ticks */
  guint raw_step_ms;     /* between two writes of raw bytes */
  const char *raw_bytes; /* written again and again … */
  guint raw_times;       /* … so often; 0: for ever */
  const char *raw_head;  /* written first */
  gboolean raw_stays;    /* open afterwards */
  gboolean raw_at_once;  /* does not wait for the end of the question's head */
  gpointer user;
};

/* The longest while between two ticks of any question so far. */
extern gint64 stage_longest_us;

/* A server that answers with @answer, a folder for the cache, and MET Norway's kind of question. */
Stage *
stage_new (StageAnswer answer);
/* One that writes bytes and cares for no rule. */
Stage *
stage_new_raw (const char *head, const char *bytes, guint times, guint step_ms, gboolean stays);
/* From now on at another address, by https with its certificate, and HTTP/2 with whoever can. */
void
stage_speak_http2 (Stage *stage);
/* Nobody listens any longer. */
void
stage_deaf (Stage *stage);
void
stage_free (Stage *stage);

/* With all that is in it. */
void
stage_remove_folder (const char *folder);

/* Asks, and turns the loop until the answer is there. */
FrWeatherFetched *
stage_fetch (Stage *stage, GCancellable *cancellable, GError **error);
/* The same, with the outcome and the number of questions that have reached the server so far. */
FrWeatherFetched *
stage_expect (Stage *stage, FrFetchOutcome outcome, guint n_asked);

/* Reads {"air_temp_c": number} as an hour of MET Norway's, a gridpoint or Open-Meteo, whatever is asked for,
 * and {"next": "address"} as a first answer. */
FrWeather *
stage_reader (GBytes *body, FrWeatherFormat format, GError **error);

/* 200 with STAGE_BODY and Last-Modified. */
void
stage_answer_ok (Stage *stage, SoupServerMessage *message);
void
stage_body (SoupServerMessage *message, const char *text);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Stage, stage_free)
