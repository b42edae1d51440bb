package org.sapotrace.access;

import jakarta.enterprise.context.ApplicationScoped;
import java.util.Optional;
import java.util.Set;
import org.sapotrace.http.CurrentCaller;
import org.sapotrace.ledger.LinesShown;
import org.sapotrace.productline.LinesInReach;
import org.sapotrace.productline.Streams;

/** The lines of whoever made a request; every line for whatever comes without anybody. */
@ApplicationScoped
class ReachOfCaller implements LinesInReach, LinesShown {

  private final CurrentCaller caller;
  private final Streams streams;

  ReachOfCaller(CurrentCaller caller, Streams streams) {
    this.caller = caller;
    this.streams = streams;
  }

  @Override
  public boolean isLine(String slug) {
    return streams.line(slug).isPresent();
  }

  @Override
  public boolean isStream(String line, String slug) {
    return streams.stream(line, slug).isPresent();
  }

  @Override
  public Optional<Set<String>> slugs() {
    return caller
        .get()
        .flatMap(
            who ->
                who instanceof Entitled known
                    ? Optional.ofNullable(known.reach())
                    : Optional.empty());
  }
}
