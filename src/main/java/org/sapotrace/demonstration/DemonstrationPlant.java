package org.sapotrace.demonstration;

import jakarta.enterprise.context.ApplicationScoped;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.function.IntConsumer;
import org.sapotrace.bench.Bench;
import org.sapotrace.bench.Correction;
import org.sapotrace.bench.Corrections;
import org.sapotrace.bench.Entry;
import org.sapotrace.bench.Titration;
import org.sapotrace.titrant.Titrants;

/**
 * Half a year of an invented plant, recorded as it would have been: in the order of time, by the
 * services that record for everybody. The same numbers every time; only the dates follow the day on
 * which it ends.
 */
@ApplicationScoped
public class DemonstrationPlant {

  /** How many days there are of it. */
  public static final int DAYS = Days.COUNT;

  /** What a database holds of the plant. */
  public enum State {
    NOTHING_AT_ALL,
    BEGUN_AND_NOT_FINISHED,
    SOMETHING
  }

  private static final LocalTime MORNING = LocalTime.of(5, 30);
  private static final LocalTime EVENING = LocalTime.of(17, 30);

  private record Wrong(UUID result, Correction correction) {}

  private final PlantSetUp setUp;
  private final Titrants titrants;
  private final Bench bench;
  private final Corrections corrections;
  private final Office office;

  DemonstrationPlant(
      PlantSetUp setUp, Titrants titrants, Bench bench, Corrections corrections, Office office) {
    this.setUp = setUp;
    this.titrants = titrants;
    this.bench = bench;
    this.corrections = corrections;
    this.office = office;
  }

  /** What the database holds. */
  public State state() {
    if (setUp.isEmpty()) {
      return State.NOTHING_AT_ALL;
    }
    return setUp.isHalfFilled() ? State.BEGUN_AND_NOT_FINISHED : State.SOMETHING;
  }

  /**
   * Fills an empty database.
   *
   * @param last the last day of the half-year, in the past
   * @param progress is told how many days are recorded, after each of them
   */
  public void fill(LocalDate last, IntConsumer progress) {
    Days days = Days.until(last);
    BenchWork work = new BenchWork(days);
    List<Wrong> yesterdays = new ArrayList<>();
    setUp.begin();
    for (int day = 0; day < Days.COUNT; day++) {
      morning(work, days, day);
      List<Wrong> wrong = record(work.on(day), day);
      yesterdays.forEach(each -> corrections.correct(each.result(), each.correction()));
      yesterdays = wrong;
      evening(work, days, day);
      progress.accept(day + 1);
    }
    setUp.end();
  }

  private void morning(BenchWork work, Days days, int day) {
    Bottle bottle = Bottle.on(day);
    if (bottle.isOpenedOn(day)) {
      setUp.open(bottle, days, day);
    }
    if (bottle.isStandardisedOn(day) && day != Fault.TITRANT.found()) {
      titrants.standardise(bottle.slug(), days.at(day, MORNING), work.standardisation(day));
    }
  }

  /** What has been written down wrongly will be put right. */
  private List<Wrong> record(List<BenchWork.Written> written, int day) {
    List<Wrong> wrong = new ArrayList<>();
    for (BenchWork.Written each : written) {
      Slip slip = Slip.at(each.line(), each.place(), day).orElse(null);
      if (slip != null && each.entry() instanceof Titration right) {
        UUID result = record(each.line(), each.place(), slip.written(right));
        wrong.add(new Wrong(result, slip.correction(right)));
      } else {
        record(each.line(), each.place(), each.entry());
      }
    }
    return wrong;
  }

  private UUID record(Product line, Place place, Entry entry) {
    return bench.record(line.slug(), place.slug(), entry).result().id();
  }

  /** The bottle that stood open is standardised when somebody sees it. */
  private void evening(BenchWork work, Days days, int day) {
    if (day == Fault.TITRANT.found()) {
      titrants.standardise(Bottle.on(day).slug(), days.at(day, EVENING), work.standardisation(day));
    }
    office.evening(days, day);
  }
}
