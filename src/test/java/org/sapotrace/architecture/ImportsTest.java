package org.sapotrace.architecture;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClass;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.NullMarked;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Who may import whom, by the table in {@link Part}. */
class ImportsTest {

  static List<Part.Allowance> allowances() {
    return Part.allowances();
  }

  static List<String> pure() {
    return Part.pure();
  }

  @ParameterizedTest
  @MethodSource("allowances")
  void importsOnlyWhatItsArrowsAllow(Part.Allowance allowance) {
    // Fails, too, where the package holds no class.
    classes()
        .that()
        .resideInAPackage(allowance.name())
        .should()
        .onlyDependOnClassesThat()
        .resideInAnyPackage(allowance.imports().toArray(String[]::new))
        .because("a reading goes one way, and each package can be read without those above it")
        .check(ServiceClasses.ALL);
  }

  @Test
  void everyPackageIsInTheTableAndNoOther() {
    assertThat(ServiceClasses.ALL.stream().map(JavaClass::getPackageName).distinct())
        .containsExactlyInAnyOrderElementsOf(
            allowances().stream().map(Part.Allowance::name).toList());
  }

  @Test
  void noPackagesDependOnEachOtherInACircle() {
    slices()
        .matching(Part.ROOT + ".(*)..")
        .should()
        .beFreeOfCycles()
        .because("of two that need each other neither can be changed alone")
        .check(ServiceClasses.ALL);
  }

  @ParameterizedTest
  @MethodSource("pure")
  void pureComputationTouchesNothingOutside(String name) {
    noClasses()
        .that()
        .resideInAPackage(name)
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage("java.net..", "java.nio.file..", "java.sql..")
        .because("what is computed depends on nothing but the numbers")
        .check(ServiceClasses.ALL);
  }

  @Test
  void onlyChartimageKnowsHowToDraw() {
    noClasses()
        .that()
        .resideOutsideOfPackage("org.sapotrace.chartimage")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage(
            "java.awt..",
            "javax.imageio..",
            "javax.swing..",
            "org.apache.batik..",
            "org.apache.pdfbox..",
            "org.knowm.xchart..")
        .because("a drawing library can then be exchanged in one place")
        .check(ServiceClasses.ALL);
  }

  @Test
  void onlyOneEdgeKnowsHowTokensAreVerified() {
    noClasses()
        .that()
        .resideOutsideOfPackage("org.sapotrace.access.oidc")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage("io.quarkus.oidc..", "io.smallrye.jwt..", "org.jose4j..")
        .because("who may call is decided at the door, and what a token is worth in one place")
        .check(ServiceClasses.ALL);
  }

  @Test
  void everyPackageIsClosedToNullAndSaysWhatItIsFor() {
    assertThat(ServiceClasses.ALL.stream().map(JavaClass::getPackage).collect(Collectors.toSet()))
        .allSatisfy(each -> assertThat(each.isAnnotatedWith(NullMarked.class)).isTrue());
  }
}
