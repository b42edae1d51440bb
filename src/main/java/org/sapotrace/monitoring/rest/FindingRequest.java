package org.sapotrace.monitoring.rest;

import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.http.SafeText;
import org.sapotrace.monitoring.NewFinding;

/** What somebody found out about a signal, as a client puts it. */
record FindingRequest(
    @NotNull @SafeText(max = 1000, multiline = true) String cause,
    @SafeText(max = 1000, multiline = true) @Nullable String action,
    @NotNull @SafeText(max = 200) String by,
    @Size(max = 1000) @Nullable List<@NotNull UUID> exclude) {

  NewFinding toNewFinding() {
    return new NewFinding(cause, action, by, exclude == null ? List.of() : exclude);
  }
}
