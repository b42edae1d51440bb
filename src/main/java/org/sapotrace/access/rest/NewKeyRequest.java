package org.sapotrace.access.rest;

import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.access.NewKey;
import org.sapotrace.http.SafeText;
import org.sapotrace.http.Scope;
import org.sapotrace.http.Slug;

/** A key as a client wants it. */
record NewKeyRequest(
    @NotNull @SafeText(max = 200) String name,
    @NotNull @Size(min = 1, max = 4) List<@NotNull Scope> scopes,
    @Size(min = 1, max = 100) @Nullable List<@NotNull @Slug String> lines,
    @Nullable Instant expiresAt) {

  NewKey toNewKey() {
    return new NewKey(name, scopes, lines, expiresAt);
  }
}
