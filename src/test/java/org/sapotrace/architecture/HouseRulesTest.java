package org.sapotrace.architecture;

import static com.tngtech.archunit.core.domain.JavaClass.Predicates.belongToAnyOf;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.fields;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.methods;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.AccessTarget.CodeUnitCallTarget;
import com.tngtech.archunit.core.domain.JavaCall;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.lang.ArchRule;
import jakarta.inject.Inject;
import jakarta.persistence.Embeddable;
import jakarta.persistence.Entity;
import jakarta.ws.rs.HttpMethod;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.core.Response;
import java.time.Clock;
import java.time.InstantSource;
import java.util.Date;
import java.util.Random;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.concurrent.ThreadLocalRandom;
import org.eclipse.microprofile.config.inject.ConfigProperty;
import org.junit.jupiter.api.Test;
import org.sapotrace.http.RecordsOnce;
import org.sapotrace.http.Requires;

/** Rules that hold in every package of the service. */
class HouseRulesTest {

  @Test
  void rowsLiveInPersistence() {
    check(
        classes()
            .that()
            .areAnnotatedWith(Entity.class)
            .or()
            .areAnnotatedWith(Embeddable.class)
            .should()
            .resideInAPackage("org.sapotrace.*.persistence")
            .andShould()
            .notBePublic()
            .because("features hold each other's identifiers and records, never rows"));
  }

  @Test
  void namesAreTheFieldsOwn() {
    check(
        noClasses()
            .should()
            .haveNameMatching(".*(Util|Utils|Helper|Manager|Impl|Dto|DTO)(\\$.*)?")
            .because("such a name says that something is there, not what it is"));
  }

  @Test
  void nothingIsInjectedIntoFields() {
    check(
        fields()
            .should()
            .notBeAnnotatedWith(Inject.class)
            .andShould()
            .notBeAnnotatedWith(ConfigProperty.class)
            .because("what a class needs is seen in its constructor, and is never missing"));
  }

  @Test
  void onlySystemTimeReadsTheClock() {
    check(
        noClasses()
            .that()
            .doNotHaveFullyQualifiedName("org.sapotrace.SystemTime")
            .should()
            .callCodeUnitWhere(JavaCall.Predicates.target(READS_THE_CLOCK))
            .because("time is injected as an InstantSource, so that tests can set it"));
  }

  @Test
  void whatRecordsRecordsOnce() {
    check(
        methods()
            .that()
            .areAnnotatedWith(POST.class)
            .and()
            .areDeclaredInClassesThat(ARE_OF_THE_INTERFACE)
            .should()
            .beAnnotatedWith(RecordsOnce.class)
            .andShould()
            .haveRawReturnType(Response.class)
            .because("a repeat with the same Idempotency-Key must not record twice"));
  }

  @Test
  void whatIsAnsweredSaysWhatItNeeds() {
    check(
        methods()
            .that()
            .areMetaAnnotatedWith(HttpMethod.class)
            .and()
            .areDeclaredInClassesThat()
            .areAnnotatedWith(Path.class)
            .should()
            .beAnnotatedWith(Requires.class)
            .because("who may do what is read where it is done"));
  }

  /** Calculations record nothing; imports are repeated part by part (RepeatableParts). */
  private static final DescribedPredicate<JavaClass> ARE_OF_THE_INTERFACE =
      DescribedPredicate.describe(
          "are resources of the interface that record",
          resource ->
              resource.isAnnotatedWith(Path.class)
                  && resource.getAnnotationOfType(Path.class).value().matches("/?api/v1/.*")
                  && !resource
                      .getAnnotationOfType(Path.class)
                      .value()
                      .matches(".*/(calculations(/.*)?|imports)"));

  @Test
  void nothingIsLeftToChance() {
    check(
        noClasses()
            .should()
            .dependOnClassesThat(belongToAnyOf(Random.class, ThreadLocalRandom.class))
            .orShould()
            .callMethod(Math.class, "random")
            .orShould()
            .callConstructor(SplittableRandom.class)
            .because(
                "a computation that draws is given its generator or its seed; secrets and"
                    + " identifiers come from SecureRandom"));
  }

  /** Of java.time: now() without a clock, and every clock of the system. */
  private static final DescribedPredicate<CodeUnitCallTarget> READS_THE_CLOCK =
      DescribedPredicate.describe(
          "reads the clock of the system",
          target -> {
            JavaClass owner = target.getOwner();
            String name = target.getName();
            boolean withoutClock =
                target.getRawParameterTypes().stream()
                    .noneMatch(type -> type.isEquivalentTo(Clock.class));
            return owner.getPackageName().startsWith("java.time")
                    && name.equals("now")
                    && withoutClock
                || owner.isEquivalentTo(Clock.class) && name.matches("system.*|tick[A-Z].*")
                || owner.isEquivalentTo(InstantSource.class) && name.equals("system")
                || owner.isEquivalentTo(System.class)
                    && Set.of("currentTimeMillis", "nanoTime").contains(name)
                || owner.isEquivalentTo(Date.class)
                    && name.equals("<init>")
                    && target.getRawParameterTypes().isEmpty();
          });

  private static void check(ArchRule rule) {
    rule.check(ServiceClasses.ALL);
  }
}
