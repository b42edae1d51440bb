package org.sapotrace.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;

import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class ChainsTest {

  @Inject Ledger ledger;
  @Inject Entries entries;
  @Inject Heads heads;

  private final ExecutorService writers = Executors.newFixedThreadPool(4);

  @AfterEach
  void endWriters() {
    writers.shutdownNow();
  }

  /** One transaction has written and is not committed while another writes, commits and is read. */
  @Test
  @Timeout(60)
  void doNotWaitForEachOther() throws Exception {
    Deed early = deed();
    Deed late = deed();
    CountDownLatch written = new CountDownLatch(1);
    CountDownLatch goOn = new CountDownLatch(1);
    Future<?> slow =
        writers.submit(
            () ->
                QuarkusTransaction.requiringNew()
                    .run(
                        () -> {
                          append(early);
                          written.countDown();
                          await(goOn);
                        }));
    await(written);

    QuarkusTransaction.requiringNew().run(() -> append(late));
    makeHeads();
    List<Entries.Read> before = read(Entries.Place.BEGINNING);
    goOn.countDown();
    slow.get(30, TimeUnit.SECONDS);
    makeHeads();
    List<Entries.Read> after = read(place(before.get(before.size() - 1)));

    assertThat(chains(before)).contains(late.chain()).doesNotContain(early.chain());
    assertThat(chains(after)).contains(early.chain()).doesNotContain(late.chain());
  }

  @Test
  void areUnbrokenUnderLoad() throws Exception {
    List<TestStream> streams = IntStream.range(0, 3).mapToObj(i -> TestStream.other("[]")).toList();
    List<Future<?>> all = new ArrayList<>();
    for (int writer = 0; writer < 4; writer++) {
      all.add(writers.submit(() -> recordTo(streams)));
    }
    for (Future<?> each : all) {
      each.get(120, TimeUnit.SECONDS);
    }

    // The stream, 40 results, and the trial limits that come with the twentieth.
    for (TestStream stream : streams) {
      assertThat(LedgerTest.entries("?line=" + stream.line + "&stream=watched"))
          .extracting(entry -> entry.path("seq").asInt())
          .containsExactlyElementsOf(IntStream.rangeClosed(1, 42).boxed().toList());
    }
    assertThat(json(200, get("/ledger/verification")).path("intact").asBoolean()).isTrue();
  }

  private static void recordTo(List<TestStream> streams) {
    for (int i = 0; i < 10; i++) {
      for (TestStream stream : streams) {
        stream.recordAt(i, Instant.parse("2026-01-05T06:00:00Z"));
      }
    }
  }

  @Test
  void areReadAsTheyAreCommitted() throws Exception {
    List<TestStream> streams = List.of(TestStream.other("[]"), TestStream.other("[]"));
    Future<?> writing = writers.submit(() -> recordTo(streams));
    List<Entries.Read> followed = new ArrayList<>();
    Entries.Place place = Entries.Place.BEGINNING;
    boolean done = false;
    while (!done) {
      done = writing.isDone();
      makeHeads();
      List<Entries.Read> more = read(place);
      followed.addAll(more);
      place = more.isEmpty() ? place : place(more.get(more.size() - 1));
    }
    writing.get();

    assertThat(followed).isEqualTo(read(Entries.Place.BEGINNING));
  }

  @Test
  void areWrittenInTransactionsOnly() {
    assertThatThrownBy(() -> ledger.enter(deed())).isInstanceOf(IllegalStateException.class);
  }

  @Test
  void forgetWhatIsRolledBack() {
    Deed deed = deed();
    QuarkusTransaction.begin();
    ledger.enter(deed);
    QuarkusTransaction.rollback();
    makeHeads();

    assertThat(chains(read(Entries.Place.BEGINNING))).doesNotContain(deed.chain());
  }

  @Test
  void sayThatTheServiceActsWhereNobodyAsks() {
    Deed deed = deed();
    QuarkusTransaction.requiringNew().run(() -> ledger.enter(deed));
    makeHeads();

    assertThat(read(Entries.Place.BEGINNING))
        .filteredOn(read -> read.entry().chain().equals(deed.chain()))
        .extracting(read -> read.entry().actor())
        .containsExactly("service");
  }

  private static Deed deed() {
    return Deed.ofBook(
        "subscription", UUID.randomUUID().toString(), Act.SUBSCRIPTION_PUT, Map.of());
  }

  private void append(Deed deed) {
    entries.append(
        List.of(new Entry.Unchained(deed, Instant.parse("2026-03-04T09:20:00Z"), "a", "{}")));
  }

  private void makeHeads() {
    QuarkusTransaction.requiringNew().run(() -> heads.make(Instant.now()));
  }

  private List<Entries.Read> read(Entries.Place place) {
    return QuarkusTransaction.requiringNew()
        .call(() -> entries.after(place, new Entries.Filter(null, null), Integer.MAX_VALUE));
  }

  private static Entries.Place place(Entries.Read read) {
    return new Entries.Place(read.head(), read.entry().chain(), read.entry().seq());
  }

  private static List<String> chains(List<Entries.Read> read) {
    return read.stream().map(each -> each.entry().chain()).toList();
  }

  private static void await(CountDownLatch latch) {
    try {
      assertThat(latch.await(30, TimeUnit.SECONDS)).isTrue();
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(interrupted);
    }
  }
}
