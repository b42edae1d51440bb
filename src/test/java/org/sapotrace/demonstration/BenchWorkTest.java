package org.sapotrace.demonstration;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.sapotrace.bench.Entry;
import org.sapotrace.bench.Titration;

/** What is written down at the bench of the demonstration plant. */
class BenchWorkTest {

  private static final LocalDate LAST = LocalDate.parse("2026-03-01");

  @Test
  void isTheSameEveryTime() {
    assertThat(entries(LAST)).isEqualTo(entries(LAST)).hasSizeGreaterThan(2000);
  }

  @Test
  void hasTheSameNumbersWheneverItEnds() {
    assertThat(readings(LAST)).isEqualTo(readings(LAST.plusDays(100)));
  }

  @Test
  void endsOnItsLastDay() {
    List<Entry> entries = entries(LAST);
    assertThat(entries.get(entries.size() - 1).sampledAt()).isBefore(Days.until(LAST).at(182, 0));
    assertThat(entries.get(0).sampledAt()).isAfter(Days.until(LAST).at(0, 0));
  }

  /** The wash is planted at 0.6 of the limit of 66.2 mg/kg, 13 % from batch to batch. */
  @Test
  void spreadsAsPlanted() {
    Batches sodium = new Batches(Product.SODIUM);
    double[] logs =
        IntStream.range(0, Fault.WASH.first())
            .mapToDouble(day -> Math.log(sodium.soap(Place.WASHED, day)))
            .toArray();
    double mean = IntStream.range(0, logs.length).mapToDouble(i -> logs[i]).average().orElseThrow();
    double variance =
        IntStream.range(0, logs.length)
            .mapToDouble(i -> (logs[i] - mean) * (logs[i] - mean))
            .average()
            .orElseThrow();
    assertThat(Math.exp(mean)).isCloseTo(40, within(2.0));
    assertThat(Math.sqrt(variance)).isCloseTo(0.123, within(0.03));
  }

  /** V50 at 864 bed volumes of 5.4 a day is day 159, and a twentieth of the leak shows at 120. */
  @Test
  void theTowerBreaksThroughAsPlanted() {
    Tower tower = Product.POTASSIUM.tower();
    assertThat(tower.letThrough(0)).isCloseTo(0.04, within(1e-6));
    assertThat(tower.letThrough(Fault.TOWER.first()) / 0.04).isBetween(1.04, 1.07);
    assertThat(tower.letThrough(155)).isGreaterThan(41.0 / 120).isLessThan(0.5);
    assertThat(tower.letThrough(Fault.TOWER.found() + 1)).isCloseTo(0.04, within(1e-6));
  }

  private static List<Entry> entries(LocalDate last) {
    BenchWork work = new BenchWork(Days.until(last));
    return IntStream.range(0, Days.COUNT)
        .boxed()
        .flatMap(day -> work.on(day).stream())
        .map(BenchWork.Written::entry)
        .toList();
  }

  private static List<Object> readings(LocalDate last) {
    return entries(last).stream()
        .map(entry -> entry instanceof Titration titration ? titration.readings() : entry.batch())
        .toList();
  }
}
