package org.sapotrace.ledger;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.RollbackException;
import jakarta.transaction.Synchronization;
import jakarta.transaction.SystemException;
import jakarta.transaction.TransactionManager;
import jakarta.transaction.TransactionSynchronizationRegistry;
import java.time.Instant;
import java.time.InstantSource;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;

/*
 * What a transaction does is entered at its end, all at once: however much an import brings, the end
 * of a chain is read once.
 */
/** Enters who changed what, in the transaction that changes it. */
@ApplicationScoped
public class Ledger {

  private final Entries entries;
  private final Actors actors;
  private final StreamNames streams;
  private final InstantSource clock;
  private final TransactionSynchronizationRegistry transaction;
  private final TransactionManager transactions;

  Ledger(
      Entries entries,
      Actors actors,
      StreamNames streams,
      InstantSource clock,
      TransactionSynchronizationRegistry transaction,
      TransactionManager transactions) {
    this.entries = entries;
    this.actors = actors;
    this.streams = streams;
    this.clock = clock;
    this.transaction = transaction;
    this.transactions = transactions;
  }

  /** Enters what was done in a stream, whose lock the caller holds until the transaction ends. */
  public void enter(UUID stream, Act act, String subject, Object content) {
    enter(Deed.ofStream(stream, streams.names(stream), act, subject, content));
  }

  /**
   * Enters what was done.
   *
   * @throws IllegalStateException where there is no transaction in which it was done
   */
  public void enter(Deed deed) {
    // The database keeps microseconds, and what is hashed must be what is read.
    Instant now = clock.instant().truncatedTo(ChronoUnit.MICROS);
    waiting()
        .add(new Entry.Unchained(deed, now, actors.current(), entries.canonical(deed.content())));
  }

  /** What this transaction did and has not entered yet. */
  private List<Entry.Unchained> waiting() {
    if (transaction.getResource(this) instanceof Batch batch) {
      return batch.deeds;
    }
    Batch batch = new Batch();
    transaction.putResource(this, batch);
    try {
      // Not behind all others: by then the connection is expected to be given back.
      transactions.getTransaction().registerSynchronization(batch);
    } catch (RollbackException | SystemException ended) {
      throw new IllegalStateException(ended);
    }
    return batch.deeds;
  }

  private final class Batch implements Synchronization {

    private List<Entry.Unchained> deeds = new ArrayList<>();

    @Override
    public void beforeCompletion() {
      entries.append(deeds);
      // What is done later would be lost, and fails instead.
      deeds = List.of();
    }

    @Override
    public void afterCompletion(int status) {
      // Whether it was committed or not: so were the entries.
    }
  }
}
