package org.sapotrace.bench.rest;

import org.sapotrace.bench.Entry;

/** An entry as a client sends it. */
sealed interface NewEntry permits NewTitration, NewResult {

  Entry toEntry();
}
