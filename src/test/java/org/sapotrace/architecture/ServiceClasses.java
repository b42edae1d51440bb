package org.sapotrace.architecture;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;

/** The compiled classes of the service, without its tests, read once. */
final class ServiceClasses {

  static final JavaClasses ALL =
      new ClassFileImporter()
          .withImportOption(new ImportOption.DoNotIncludeTests())
          .withImportOption(new ImportOption.DoNotIncludeJars())
          .importPackages(Part.ROOT);

  private ServiceClasses() {}
}
