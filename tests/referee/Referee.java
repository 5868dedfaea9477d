// Holds PDF files against PDF/UA-1 and PDF/A-2a with veraPDF's validation core: one line a file and profile, exit 1 for a
// failure. The core ships inside another package's jar without its profile reader, so profiles are read with plain XML.
// Rules and their tests: veraPDF validation profiles PDFUA-1 and PDFA-2A (ISO 14289-1:2014, ISO 19005-2:2011).

import java.io.FileInputStream;
import java.util.ArrayList;
import java.util.Date;
import java.util.HashSet;
import java.util.Set;
import javax.xml.parsers.DocumentBuilderFactory;
import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.PDFAParser;
import org.verapdf.pdfa.PDFAValidator;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.results.ValidationResult;
import org.verapdf.pdfa.validation.profiles.Profiles;
import org.verapdf.pdfa.validation.profiles.Rule;
import org.verapdf.pdfa.validation.profiles.RuleId;
import org.verapdf.pdfa.validation.profiles.ValidationProfile;
import org.verapdf.pdfa.validation.profiles.Variable;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;

public class Referee {
    private static final String[][] PROFILES = {{"PDFUA_1", "PDFUA-1"}, {"PDFA_2_A", "PDFA-2A"}};

    public static void main(String[] files) throws Exception {
        VeraGreenfieldFoundryProvider.initialise();
        boolean sound = true;
        for (String[] names : PROFILES) {
            PDFAFlavour flavour = PDFAFlavour.valueOf(names[0]);
            ValidationProfile profile = read(flavour, names[1]);
            for (String file : files) {
                sound &= judge(file, flavour, profile, names[1]);
            }
        }
        System.exit(sound ? 0 : 1);
    }

    private static boolean judge(String file, PDFAFlavour flavour, ValidationProfile profile, String name) throws Exception {
        try (PDFAParser parser = Foundries.defaultInstance().createParser(new FileInputStream(file), flavour);
                PDFAValidator validator = Foundries.defaultInstance().createValidator(profile, 30, false, true, false)) {
            ValidationResult result = validator.validate(parser);
            boolean passed = result.isCompliant();
            String failed = passed ? "" : " " + result.getFailedChecks();
            System.out.println((passed ? "pass " : "FAIL ") + name + " " + file + ": " + result.getTotalAssertions() + " checks" + failed);
            return passed;
        }
    }

    private static ValidationProfile read(PDFAFlavour flavour, String name) throws Exception {
        Document document = DocumentBuilderFactory.newInstance().newDocumentBuilder()
                .parse(Referee.class.getResourceAsStream("/org/verapdf/pdfa/validation/" + name + ".xml"));
        Set<Rule> rules = new HashSet<>();
        NodeList written = document.getElementsByTagName("rule");
        for (int index = 0; index < written.getLength(); index++) {
            Element rule = (Element) written.item(index);
            Element id = (Element) rule.getElementsByTagName("id").item(0);
            RuleId ruleId = Profiles.ruleIdFromValues(
                    PDFAFlavour.Specification.valueOf(id.getAttribute("specification")),
                    id.getAttribute("clause"), Integer.parseInt(id.getAttribute("testNumber")));
            Boolean deferred = rule.hasAttribute("deferred") ? Boolean.valueOf(rule.getAttribute("deferred")) : null;
            rules.add(Profiles.ruleFromValues(ruleId, rule.getAttribute("object"), deferred, rule.getAttribute("tags"),
                    text(rule, "description"), text(rule, "test"),
                    Profiles.errorFromValues(text(rule, "message"), new ArrayList<>()), new ArrayList<>()));
        }
        Set<Variable> variables = new HashSet<>();
        NodeList declared = document.getElementsByTagName("variable");
        for (int index = 0; index < declared.getLength(); index++) {
            Element variable = (Element) declared.item(index);
            variables.add(Profiles.variableFromValues(variable.getAttribute("name"), variable.getAttribute("object"),
                    text(variable, "defaultValue"), text(variable, "value")));
        }
        return Profiles.profileFromValues(
                flavour, Profiles.profileDetailsFromValues(name, "", "", new Date(0)), "", rules, variables);
    }

    private static String text(Element element, String tag) {
        NodeList found = element.getElementsByTagName(tag);
        return found.getLength() == 0 ? "" : found.item(0).getTextContent();
    }
}
