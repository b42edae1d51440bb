package org.sapotrace.demonstration;

import jakarta.enterprise.context.ApplicationScoped;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.function.IntConsumer;
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

  private final PlantSetUp setUp;
  private final Titrants titrants;
  private final BenchNotes notes;
  private final Office office;

  DemonstrationPlant(PlantSetUp setUp, Titrants titrants, BenchNotes notes, Office office) {
    this.setUp = setUp;
    this.titrants = titrants;
    this.notes = notes;
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
   * @param progress is told how many days are over, after each of them
   */
  public void fill(LocalDate last, IntConsumer progress) {
    Days days = Days.until(last);
    BenchWork work = new BenchWork(days);
    setUp.begin();
    for (int day = 0; day < Days.COUNT; day++) {
      morning(work, days, day);
      notes.write(work.on(day), day);
      evening(work, days, day);
      progress.accept(day + 1);
    }
    notes.recordAll();
    setUp.end();
  }

  private void morning(BenchWork work, Days days, int day) {
    Bottle bottle = Bottle.on(day);
    if (bottle.isOpenedOn(day)) {
      setUp.open(bottle, days, day);
    }
    if (bottle.isStandardisedOn(day) && day != Fault.TITRANT.found()) {
      standardise(work, day, days.at(day, MORNING));
    }
  }

  /** The bottle that stood open is standardised when somebody sees it. */
  private void evening(BenchWork work, Days days, int day) {
    if (day == Fault.TITRANT.found()) {
      standardise(work, day, days.at(day, EVENING));
    }
    if (office.isBusy(day)) {
      notes.recordAll();
      office.evening(days, day);
    }
  }

  private void standardise(BenchWork work, int day, Instant at) {
    notes.recordAll();
    titrants.standardise(Bottle.on(day).slug(), at, work.standardisation(day));
  }
}
