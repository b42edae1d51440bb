package org.sapotrace.notice;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.util.List;

/** All notices in the order in which they are told, the same for every process. */
@ApplicationScoped
@Transactional
public class Feed {

  private final Outbox outbox;

  Feed(Outbox outbox) {
    this.outbox = outbox;
  }

  /** The last number given; 0 before there is any. */
  public long last() {
    return outbox.last();
  }

  /** Notices behind a number (exclusive). */
  public List<Outbox.Numbered> after(long exclusive, int most) {
    return outbox.after(exclusive, most);
  }
}
