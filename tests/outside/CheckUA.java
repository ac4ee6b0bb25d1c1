import java.io.FileInputStream;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.results.ValidationResult;
import org.verapdf.pdfa.validation.profiles.RuleId;

/** Whether each PDF in the folders and files given is PDF/UA-1 (ISO 14289-1:2014), by veraPDF's own engine. */
class CheckUA {
    public static void main(String[] paths) throws Exception {
        VeraGreenfieldFoundryProvider.initialise();
        int faults = 0;
        List<Path> files = files(paths);
        for (Path file : files) {
            ValidationResult result = validate(file);
            for (RuleId rule : result.getFailedChecks().keySet()) {
                System.out.printf("%s: breaks clause %s-%d%n", file, rule.getClause(), rule.getTestNumber());
                faults++;
            }
            if (!result.isCompliant() && result.getFailedChecks().isEmpty()) {
                System.out.printf("%s: is not PDF/UA-1: %s%n", file, result.getJobEndStatus());
                faults++;
            }
        }
        System.out.printf("PDF/UA: %d sheets, %d defects%n", files.size(), faults);
        System.exit(faults > 0 ? 1 : files.isEmpty() ? 2 : 0);
    }

    static ValidationResult validate(Path file) throws Exception {
        try (InputStream in = new FileInputStream(file.toFile());
                var parser = Foundries.defaultInstance().createParser(in, PDFAFlavour.PDFUA_1);
                var validator = Foundries.defaultInstance().createValidator(PDFAFlavour.PDFUA_1, false)) {
            return validator.validate(parser);
        }
    }

    static List<Path> files(String[] paths) throws Exception {
        List<Path> files = new ArrayList<>();
        for (String path : paths) {
            try (Stream<Path> below = Files.walk(Path.of(path))) {
                below.filter(p -> p.toString().endsWith(".pdf")).sorted().forEach(files::add);
            }
        }
        return files;
    }
}
