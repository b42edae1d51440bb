package org.sapotrace.productline.rest;

import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.http.SafeText;
import org.sapotrace.http.Slug;
import org.sapotrace.productline.Logbook;
import org.sapotrace.productline.PlantEvent;

/** An event as a client records it. */
record NewEvent(
    @NotNull PlantEvent.Kind kind,
    @NotNull Instant at,
    @SafeText(max = 1000, multiline = true) @Nullable String note,
    @Size(min = 1, max = 1000) @Nullable List<@NotNull @Slug String> streams,
    @Nullable Boolean newPhase) {

  Logbook.Entry toEntry() {
    return new Logbook.Entry(kind, at, note, streams, Boolean.TRUE.equals(newPhase));
  }
}
