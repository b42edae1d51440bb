package org.sapotrace.ledger.rest;

import com.fasterxml.jackson.annotation.JsonRawValue;
import java.time.Instant;
import org.jspecify.annotations.Nullable;
import org.sapotrace.ledger.Entries;
import org.sapotrace.ledger.Entry;

/** An entry of the ledger as it is answered; {@code head} first tells of it. */
record EntryView(
    long head,
    String chain,
    long seq,
    Instant at,
    String actor,
    String action,
    @Nullable String line,
    @Nullable String stream,
    String subject,
    @JsonRawValue String content,
    String previousHash,
    String hash) {

  static EntryView of(Entries.Read read) {
    Entry entry = read.entry();
    return new EntryView(
        read.head(),
        entry.chain(),
        entry.seq(),
        entry.at(),
        entry.actor(),
        entry.action(),
        entry.line(),
        entry.stream(),
        entry.subject(),
        entry.content(),
        entry.previousHash(),
        entry.hash());
  }
}
